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


# ---- Both sides of each limit: all of them our own choice --------------------------------------


# Letters in common, twice, as a share of all letters: 6 of 10; 26 of 44.
@pytest.mark.limit("problems.nearest._CLOSE_ENOUGH")
@pytest.mark.parametrize(
    ("word", "known", "near"),
    [("abcxy", "abcuv", True), ("a" * 13 + "x" * 9, "a" * 13 + "u" * 9, False)],
)
def test_close_enough(word: str, known: str, near: bool) -> None:
    assert (nearest(word, [known]) == known) is near


# After a number names must be more alike: 8 of 10 letters; 38 of 48. None begins alike.
@pytest.mark.limit("problems.nearest._NEARLY_ALIKE")
@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("12 xbcde", "12 ybcde", True),
        ("12 " + "x" * 5 + "a" * 19, "12 " + "y" * 5 + "a" * 19, False),
    ],
)
def test_nearly_alike(word: str, known: str, near: bool) -> None:
    assert (nearest(word, [known]) == known) is near


@pytest.mark.limit("problems.nearest._LEAST_SHARED")
@pytest.mark.parametrize(("word", "near"), [("12 bend over", None), ("12 bad weather", "12-bar")])
def test_two_letters_after_a_number_are_shared(word: str, near: str | None) -> None:
    assert nearest(word, ["12-bar"]) == near


@pytest.mark.limit("problems.nearest._SHORTEST_BEGINNING")
@pytest.mark.parametrize(
    ("word", "near"), [("po", None), ("por", "porcelain"), ("porc", "porcelain")]
)
def test_three_letters_are_a_beginning(word: str, near: str | None) -> None:
    assert nearest(word, ["porcelain"]) == near


@pytest.mark.limit("problems.nearest._MOST_COMPARED")
@pytest.mark.parametrize(("names", "near"), [(500, "porch"), (501, None)])
def test_a_misspelt_word_is_compared_with_500_names(names: int, near: str | None) -> None:
    known = ["porch", *(f"lick-{number}" for number in range(names - 1))]
    assert nearest("perch", known) == near


# Of names that begin alike the first of the file is taken: here it is the last from A to Z.
@pytest.mark.limit("problems.nearest._MOST_BEGUN")
@pytest.mark.parametrize(("names", "near"), [(50, "walk-z"), (51, "walk-00")])
def test_50_names_that_begin_alike_are_weighed(names: int, near: str) -> None:
    known = ["walk-z", *(f"walk-{number:02}" for number in range(names - 1))]
    assert nearest("walk", known) == near


# The last letter in common is the 100th of the word, or the 101st: then 43 of 44 count, and of the
# 144 letters 86 are too few.
@pytest.mark.limit("problems.nearest._LONGEST_COMPARED")
@pytest.mark.parametrize(
    ("known", "found"), [("porch" * 8 + "por", True), ("porch" * 8 + "porc", False)]
)
def test_100_letters_of_a_word_are_compared(known: str, found: bool) -> None:
    assert (nearest("-" * 57 + known, [known]) == known) is found


# 50 times 400 pairs of names are 20,000; 59 times 339 are one more.
@pytest.mark.limit("problems.nearest._MOST_PAIRS")
@pytest.mark.parametrize(("names", "words", "near"), [(400, 50, "porch"), (339, 59, None)])
def test_20000_pairs_of_names_are_compared(names: int, words: int, near: str | None) -> None:
    known = Names(["porch", *(f"{number}" for number in range(names - 1))])
    assert [known.nearest("perch") for _ in range(words)][-1] == near
