"""A lick placed beside the bars that have its chords, and a comma for a bar line."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.problems.problem import Problem
from formsheet.source import Source
from formsheet.stages import examine

_LESSON = """\
title Mill Race
harp C
form "Own"
  | I7 | I7 | IV7 | IV7 |
  | IV7 | IV7 | I7 | V7 |
tempo 96
lick porch on I
  q 2d 3d 4d 2d
lick creek on IV
  q 4b 5b 6b 5b
lick gate on V
  q 4d 5d 4d 1d
WORD home on ON
  q 2d 3d 4d 2d |
  q 1d 4d 1d -
play
  every I porch
  every IV creek
  bars BARS home
MORE"""


def _problems(
    bars: str, on: str = "I | V", word: str = "turnaround", more: str = ""
) -> list[Problem]:
    text = _LESSON.replace("WORD", word).replace("ON", on).replace("BARS", bars)
    text = text.replace("MORE", more)
    found = examine(Source("mill.lesson", text), Shelves(Path())).problems
    return [problem for problem in found if problem.code != "lick-unused"]


def _codes(*args: str, **more: str) -> set[str]:
    return {problem.code for problem in _problems(*args, **more)}


# Our own choice: a slip in counting is one bar or two.
@pytest.mark.limit("tune.shifted._FARTHEST")
@pytest.mark.parametrize(
    ("bars", "codes"),
    [
        ("6-7", {"bars-shifted"}),
        ("5-6", {"bars-shifted"}),
        ("4-5", {"lick-wrong-chord", "bar-without-lick"}),
    ],
)
def test_bars_beside_those_that_are_meant(bars: str, codes: set[str]) -> None:
    assert _codes(bars) == codes


def test_the_right_bars_are_offered() -> None:
    (problem,) = _problems("6-7")
    (hint,) = problem.hints()
    assert hint.edit
    assert (problem.span.text, hint.edit.text, hint.edit.certain) == ("6-7", "7-8", False)


def test_a_turnaround_ends_a_chorus_and_a_lick_need_not() -> None:
    form = {"more": "  bar 8 gate\n"}
    assert "lick-wrong-chord" in _codes("1-2", "I | IV", **form)
    assert _codes("1-2", "I | IV", "lick", **form) == {"bars-shifted"}


def test_bars_that_another_line_claims_are_not_offered() -> None:
    assert "bars-shifted" not in _codes("6-7", more="  bar 8 gate\n")


def test_a_lick_on_one_chord_is_not_offered_other_bars() -> None:
    assert "bars-shifted" not in _codes("6-7", "I", "lick", more="  bar 8 gate\n")


@pytest.mark.parametrize(
    ("bars", "on", "codes"),
    [
        ("7-8", "I, V", {"comma-for-bar"}),
        ("7-8", "V, I", set()),  # the other way round: a choice
        ("7-8", "I, IV, V", set()),
        ("7-8", "I | V", set()),
    ],
)
def test_comma_for_a_bar(bars: str, on: str, codes: set[str]) -> None:
    assert _codes(bars, on) & {"comma-for-bar"} == codes


def test_a_choice_that_is_made_use_of_is_no_comma_for_a_bar() -> None:
    twice = {"more": "  last time bars 1-2 home\n"}
    text_codes = _codes("7-8", "I, V", **twice)
    assert "comma-for-bar" not in text_codes
