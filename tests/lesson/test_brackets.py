"""Groups written out, and their limits."""

from __future__ import annotations

import pytest

from formsheet.lesson.brackets import MOST_MARKS
from tests.helpers import lick_of, only_problem, over, slugs_of


def tabs(music: str, chords: str = "I7") -> list[list[tuple[str, str]]]:
    bars = lick_of(over(chords, music)).bars
    return [[(str(mark.tab or "-"), str(mark.value)) for mark in bar] for bar in bars]


@pytest.mark.parametrize(
    ("grouped", "plain"),
    [
        ("q [4d 5d]x2", "q 4d 5d 4d 5d"),
        ("[q 4d e 5d 6d]x2", "q 4d e 5d 6d q 4d e 5d 6d"),
        ("e [[4d 5d]x2 6d 6d 6d 6d]x1", "e 4d 5d 4d 5d 6d 6d 6d 6d"),
        ("e [[4d]x2 [5d -]x1]x2", "e 4d 4d 5d - 4d 4d 5d -"),
        ("[[[s 4d]x2]x2]x4", "s 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d 4d"),
        ("q 2d [e 1d -]x2 q -", "q 2d e 1d - 1d - q -"),
        # The value at the end of a group goes on in its next round and after it.
        ("q [4d e 5d 5d]x2 4d", "q 4d e 5d 5d e 4d 5d 5d 4d"),
    ],
)
def test_group_is_as_if_written_out(grouped: str, plain: str) -> None:
    assert tabs(grouped) == tabs(plain)


def test_group_over_bar_lines() -> None:
    assert tabs("h [4d 5d |]x2 4d 5d", "I7 | I7 | I7") == tabs(
        "h 4d 5d | 4d 5d | 4d 5d", "I7 | I7 | I7"
    )


def test_longest_count_of_a_group() -> None:
    chords = " | ".join(["I7"] * 11)
    assert len(tabs("[q 4d 4d 4d 4d |]x10 w 2d", chords)) == 11


@pytest.mark.limit("lesson.brackets._MOST_TIMES")
@pytest.mark.parametrize(
    ("music", "slug", "spot"),
    [
        ("q [4d]x0 5d 5d 5d 5d", "bracket-times", "]x0"),
        ("q [4d]x100", "bracket-times", "]x100"),
        ("q [4d 5d] 5d 5d", "bracket-no-count", "]"),
        ("q 4d 5d]x2 5d 5d", "bracket-not-open", "]x2"),
        ("q [4d 5d 5d 5d", "bracket-not-closed", "["),
        ("q [[s 4d]x99]x99", "lick-too-long", "]x99"),
    ],
)
def test_group_that_is_wrong(music: str, slug: str, spot: str) -> None:
    problem = only_problem(over("I7", music))
    assert (problem.code, problem.span.text) == (slug, spot)


@pytest.mark.parametrize("music", ["q [4d 5d] 5d 5d", "[[s 4d 4d]x99]x99"])
def test_where_the_group_opens_is_shown(music: str) -> None:
    related = only_problem(over("I7", music)).related
    assert [(each.label, each.span.text) for each in related] == [("opened here", "[")]


# Our own choice: 2000 marks, values counted, far beyond any lick.
@pytest.mark.limit("lesson.brackets.MOST_MARKS")
@pytest.mark.parametrize(
    ("music", "too_long"), [("[[s 4d]x50]x20", False), ("q [[s 4d]x50]x20", True)]
)
def test_most_marks_of_a_lick(music: str, too_long: bool) -> None:
    assert ("lick-too-long" in slugs_of(over("I7", music))) is too_long


def test_marks_of_a_lick_have_a_limit() -> None:
    assert only_problem(over("I7", "[[s 4d 4d]x99]x99")).fields["most"] == MOST_MARKS


@pytest.mark.parametrize(
    ("music", "slugs"),
    [
        ("q [2d e 2d 2d]x2 -", ["value-carried-round"]),
        ("e [[2d]x2 s 2d 2d]x2 e 2d 2d -", ["value-carried-round"]),
        ("[q 2d e 2d 2d]x2", []),
        ("[swing q 2d e 2d 2d]x2", []),
        ("q [2d e 2d 2d]x1 q 2d 2d", []),
        ("q [2d 2d]x2", []),
    ],
)
def test_a_value_that_is_carried_round_is_remarked_on(music: str, slugs: list[str]) -> None:
    assert slugs_of(over("I", music)) == slugs
