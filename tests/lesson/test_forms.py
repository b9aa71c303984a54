"""Forms: built in and of the file's own, and how their last bar goes."""

from __future__ import annotations

import pytest

from formsheet.music.form import FORMS
from tests.helpers import lesson_of, lesson_text, only_problem, own_form, slugs_of


def bars_of(form: str, count: int) -> str:
    """The chords of a form: "I7 | IV7 I7"."""
    found = lesson_of(lesson_text(f"play\n bars 1-{count} rest", form=form)).form
    return " | ".join(" ".join(map(str, bar)) for bar in found.bars)


@pytest.mark.parametrize("name", FORMS)
def test_built_in_form(name: str) -> None:
    form = FORMS[name]
    assert lesson_of(lesson_text(f"play\n bars 1-{len(form.bars)} rest", form=name)).form == form


@pytest.mark.parametrize("written", ["12-Bar  Standard", '"12-bar standard"'])
def test_name_of_a_built_in_form_is_read_kindly(written: str) -> None:
    assert bars_of(written, 12).startswith("I7 | I7 | I7 | I7 | IV7")


@pytest.mark.parametrize(
    ("form", "count", "last_line"),
    [
        ("12-bar standard", 12, "V7 | IV7 | I7 | V7"),
        ("12-bar standard ending V", 12, "V7 | IV7 | I7 | V7"),
        ("12-bar standard ending I", 12, "V7 | IV7 | I7 | I7"),
        ("8-bar ending I", 8, "I7 | V7 | I7 | I7"),
        ("12-bar minor ending I", 12, "bVI7 | V7 | i7 | i7"),
        ("12-bar minor ending V", 12, "bVI7 | V7 | i7 | V7"),
        ("12-bar standard ending IV", 12, "V7 | IV7 | I7 | IV7"),
        ("12-bar standard ending I IV | I V", 12, "V7 | IV7 | I7 IV7 | I7 V7"),
        ("8-bar ending I VI7 | ii7 V7", 8, "I7 | V7 | I7 VI7 | ii7 V7"),
        ("8-bar ending | I bIII7 | II7 bII7 |", 8, "I7 | V7 | I7 bIII7 | II7 bII7"),
        ("12-bar minor ending i iv | i V", 12, "bVI7 | V7 | i7 iv7 | i7 V7"),
    ],
)
def test_ending(form: str, count: int, last_line: str) -> None:
    assert bars_of(form, count).endswith(last_line)


@pytest.mark.limit("music.form.MOST_CHORDS")
@pytest.mark.parametrize(
    ("chords", "ending", "bars"),
    [
        ("I7 | IV7", "", "I7 | IV7"),
        ("I7 | I7 IV7 | ii7 V7", "", "I7 | I7 IV7 | ii7 V7"),
        ("I7 |\n  | IV7 | V", "", "I7 | IV7 | V"),
        ("I7 | I7 V7", " ending I", "I7 | I7"),
        ("I | IV", " ending V", "I | V"),
        ("I7 | IV", " ending V", "I7 | V7"),
        ("I | IV | ii", "", "I | IV | ii"),
        ("I7 | IV | I7 | V7", " ending I IV | I V", "I7 | IV | I7 IV | I7 V7"),
        ("I7 | IV | I7 | V7", " ending I | VI7 ii7 | V9", "I7 | I7 | VI7 ii7 | V9"),
        ("bVI7 | #ivdim7 | V7#9 | I°7", "", "bVI7 | #ivdim7 | V7#9 | Idim7"),
    ],
)
def test_own_form(chords: str, ending: str, bars: str) -> None:
    form = own_form(chords).replace('"Own"', f'"Own"{ending}')
    assert bars_of(form, bars.count("|") + 1) == bars


def test_own_form_is_set_in_lines_of_four_bars() -> None:
    text = lesson_text("play\n bars 1-6 rest", form=own_form("I | I |\n | I | I | IV | V"))
    assert [len(line) for line in lesson_of(text).form.lines] == [4, 2]


@pytest.mark.parametrize(
    ("form", "name"), [(own_form("I"), "Own"), ("\n | I |", "own form of 1 bars")]
)
def test_name_of_an_own_form(form: str, name: str) -> None:
    assert lesson_of(lesson_text("play\n bar 1 rest", form=form)).form.name == name


@pytest.mark.limit("music.form.MOST_CHORDS")
@pytest.mark.parametrize(
    ("form", "slug", "spot"),
    [
        ("12-bar standart", "form-unknown", "12-bar standart"),
        ("", "form-empty", "form"),
        ("8-bar ending " + " | ".join(["I"] * 9), "ending-too-long", " | ".join(["I"] * 9)),
        (
            own_form("I | V").replace('"Own"', '"Own" ending I | IV | V'),
            "ending-too-long",
            "I | IV | V",
        ),
        ("8-bar ending I | I IV V", "bar-chords", "I IV V"),
        ("8-bar ending I | iv13", "chord-unknown", "iv13"),
        ("8-bar ending I | D7", "word-unexpected", "D7"),
        (own_form("I IV V"), "bar-chords", "I IV V"),
        (own_form("I | iv13"), "chord-unknown", "iv13"),
    ],
)
def test_form_that_is_wrong(form: str, slug: str, spot: str) -> None:
    problem = only_problem(lesson_text("play\n bar 1 rest", form=form))
    assert (problem.code, problem.span.text) == (slug, spot)


def test_ending_does_not_change_the_name() -> None:
    form = '"The never ending road" ending I\n | I7 | V7 |'
    found = lesson_of(lesson_text("play\n bars 1-2 rest", form=form)).form
    assert (found.name, found.full_name) == (
        "The never ending road",
        "The never ending road ending I",
    )
    assert bars_of(form, 2) == "I7 | I7"


def test_near_name_of_a_form() -> None:
    problem = only_problem(lesson_text("play\n bar 1 rest", form="12-bar standart"))
    assert problem.fields["near"] == "12-bar standard"


# Our own choice.
@pytest.mark.limit("lesson.facts.MOST_FORM_BARS")
@pytest.mark.parametrize(("bars", "slugs"), [(64, []), (65, ["form-too-long"])])
def test_longest_form(bars: int, slugs: list[str]) -> None:
    form = own_form(" | ".join(["I"] * bars))
    assert slugs_of(lesson_text("play\n bars 1-64 rest", form=form)) == slugs
