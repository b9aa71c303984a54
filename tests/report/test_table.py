"""What `check` and `show` print of a lesson."""

from __future__ import annotations

import pytest

from formsheet.problems.kinds import ProblemsLeft
from formsheet.problems.problem import Severity
from formsheet.report.table import aligned, check_table, heading, summary, tune_table
from formsheet.source import Source, Span
from formsheet.vocabulary.facts import feel_text
from tests.helpers import examined, lesson_of, lesson_text, over, own_form


def checked(text: str) -> list[str]:
    """The lines of the table, runs of spaces made one."""
    return [" ".join(line.split()) for line in check_table(examined(text))]


def shown(text: str) -> list[str]:
    found = examined(text)
    assert found.tune is not None
    return [" ".join(line.split()) for line in tune_table(found.tune, found.fits)]


def test_columns_line_up() -> None:
    assert aligned([("a", "bbb", "c"), ("aaaa", "b", "")], right=(1,)) == [
        "a     bbb  c",
        "aaaa    b",
    ]


def test_columns_line_up_under_wide_letters_and_combining_marks() -> None:
    """What takes how many cells: Unicode Standard Annex 11; an accent of its own takes none."""
    rows = [("ブルース", "b"), ("e\u0301te\u0301", "b"), ("a\u200db", "b"), ("long name", "b")]
    assert aligned(rows) == [
        "ブルース   b",
        "e\u0301te\u0301        b",
        "a\u200db         b",
        "long name  b",
    ]
    assert aligned([("幅", "x"), ("abc", "x")], right=(0,)) == [" 幅  x", "abc  x"]


def test_lick_with_a_wide_title_keeps_the_columns() -> None:
    text = lesson_text(
        'lick a "走る" on I\n w 2d\nlick b "Run" on I\n w 2d\nplay\n bar 1 a\n bar 2 b',
        form=own_form("I | I"),
    )
    assert check_table(examined(text)) == [
        "bar  chord     lick   fit  first   last",
        "  1  I      G  走る  100%  2d (R)  2d (R)",
        "  2  I      G  Run   100%  2d (R)  2d (R)",
    ]


def test_no_rows_no_columns() -> None:
    assert aligned([]) == []


@pytest.mark.parametrize(
    ("severities", "words"),
    [
        ([], "no findings"),
        ([2], "1 error"),
        ([2, 1, 2, 0, 0, 0], "2 errors, 1 warning, 3 remarks"),
        ([1, 1], "2 warnings"),
        ([0], "1 remark"),
    ],
)
def test_summary(severities: list[int], words: str) -> None:
    span = Span(Source("a", ""), 0, 0)
    assert summary([ProblemsLeft(span, count=1, gravest=Severity(s)) for s in severities]) == words


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({}, "C harp, 2nd position, key of G; Own; 4/4, 60 beats a minute, straight"),
        (
            {"harp": "low F", "tempo": "92.5", "feel": "swing 60%", "position": "1st"},
            "low F harp, 1st position, key of F; Own; 4/4, 92.5 beats a minute, swing 3:2",
        ),
        (
            {"tuning": "country", "feel": "swing"},
            "C harp, country tuning, 2nd position, key of G; Own; 4/4, 60 beats a minute, swing",
        ),
    ],
)
def test_heading(facts: dict[str, str], words: str) -> None:
    assert heading(lesson_of(over("I", "w 2d", **facts))).splitlines() == ["Test Blues", words]


@pytest.mark.parametrize("feel", ["straight", "swing", "swing 3:2", "swing 3:1", "swing 51:49"])
def test_feel_is_told_as_a_lesson_writes_it(feel: str) -> None:
    assert feel_text(lesson_of(over("I", "w 2d", feel=feel)).facts.feel) == feel


def test_a_bar_a_line() -> None:
    assert checked(over("I7 | IV7 | IV7 V", "q 2d 3d 2d 5d | h 4b 3d! | w -")) == [
        "bar chord lick fit first last",
        "1 I7 G7 Run 100% 2d (R) 5d (b7)",
        "2 IV7 C7 Run 50% 4b (R) 3d (7)",
        "3 IV7 V C7 D Run",
    ]


def test_seventh_is_no_tone_of_a_plain_triad() -> None:
    """Over IV the b7 is colour, and counts a half; over IV7 it is a chord tone."""
    assert checked(over("IV", "h 4b 3d'"))[1] == "1 IV C Run 75% 4b (R) 3d' (b7)"
    assert checked(over("IV7", "h 4b 3d'"))[1] == "1 IV7 C7 Run 100% 4b (R) 3d' (b7)"


def test_choruses_rests_and_rounds() -> None:
    text = lesson_text(
        "lick a on I\n w 2d\nplay x2\n bars 1-2 a\n bar 3 rest", form=own_form("I | I | I")
    )
    assert checked(text)[1:4] == [
        "1:1 I G A 1/2 100% 2d (R) 2d (R)",
        "1:2 I G A 2/2 100% 2d (R) 2d (R)",
        "1:3 I G rest",
    ]


def test_bar_before_the_tune() -> None:
    assert checked(over("I", "pickup e 1d\n w 2d"))[1].startswith("0 I G pick-up 100% 1d (5)")


def test_no_table_of_a_lesson_with_errors() -> None:
    assert checked(over("I", "w 2x")) == []


def test_tune_as_tab() -> None:
    assert shown(over("I7 | IV7", "e 2d 3d' h. - | h 4b 34d!")) == [
        "chorus 1",
        "bar 1 I7 G7 Run",
        "1 2d an eighth G4 R chord tone",
        "1 & 3d' an eighth Bb4 b3 idiomatic",
        "bar 2 IV7 C7 Run",
        "1 4b a half C5 R chord tone",
        "3 34d a half B4 D5 7 9 avoid",
    ]


@pytest.mark.parametrize("width", [40, 50, 60, 80])
def test_a_narrow_terminal_does_without_columns(width: int) -> None:
    found = examined(over("I7 | IV7", "e 2d 3d' h. - | h 4b 34d!"))
    wide, narrow = check_table(found), check_table(found, width)
    assert max(map(len, narrow)) <= max(width, len("bar  chord  lick    on chord"))
    assert all("Run" in line for line in narrow[1:])
    assert len(narrow) == len(wide)
