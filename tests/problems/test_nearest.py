"""The known name nearest to a misspelt one."""

from __future__ import annotations

import pytest

from formsheet.music.form import FORMS
from formsheet.problems.nearest import Names, nearest


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("creak", ["porch", "creek"], "creek"),
        ("PORCH", ["porch", "creek"], "porch"),
        ("tempo:", ["tempo", "title"], "tempo"),
        ("12-bar", ["16-bar", "12-bar standard", "12-bar minor"], "12-bar standard"),
        ("8-bar", ["8-bar late change", "8-bar"], "8-bar"),
        ("turn", ["tuning", "turnaround"], "turnaround"),
        ("po", ["porch"], None),
        ("zither", ["porch", "creek"], None),
        ("", ["porch"], None),
        ("porch", [], None),
    ],
)
def test_nearest(word: str, known: list[str], near: str | None) -> None:
    assert nearest(word, known) == near


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("12 bar", "12-bar standard"),
        ("12bar", "12-bar standard"),
        ("12 bars", "12-bar standard"),
        ("12", "12-bar standard"),
        ("12 bar blues", "12-bar standard"),
        ("12 bar minor", "12-bar minor"),
        ("12 bar slow minor blues", "12-bar minor"),
        ("12-baar minor", "12-bar minor"),
        ("12 bar quick", "12-bar quick-change"),
        ("8 bar", "8-bar"),
        ("8bar blues", "8-bar"),
        ("8 bars", "8-bar"),
        ("8 bar late", "8-bar late change"),
        ("16 bars", "16-bar"),
        ("16 bar blues", "16-bar"),
        ("24 bars", None),
        ("12 days", None),
    ],
)
def test_number_at_the_head_of_a_name_is_no_slip(word: str, near: str | None) -> None:
    assert nearest(word, FORMS) == near


@pytest.mark.parametrize("count", [400, 5000])
def test_beginning_is_looked_for_among_any_number_of_names(count: int) -> None:
    names = Names([f"lick-{number}" for number in range(count)] + ["porch"])
    assert names.nearest("Porc") == "porch"
    assert names.nearest("lick-399") == "lick-399"


def test_first_of_the_names_that_begin_alike() -> None:
    assert Names(["walk-up", "walk-away", "walking"]).nearest("walk") == "walk-up"


def test_search_ends_in_a_file_of_nothing_but_mistakes() -> None:
    names = Names(["porch", *(f"{number}" for number in range(400))])
    found = [names.nearest("perch") for _ in range(1000)]
    assert found[0] == "porch"
    assert found[-1] is None
    assert names.nearest("porc") == "porch"  # which takes no search
    names = Names([f"12-bar {letter}" for letter in "abcdefgh"])
    found = [names.nearest("12 bars") for _ in range(3000)]
    assert found[0] == "12-bar a"
    assert found[-1] is None


def test_names_from_a_to_z() -> None:
    assert Names(["porch", "Creek", "creek"]).listed == ["Creek", "creek", "porch"]
