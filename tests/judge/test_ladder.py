"""The tempo ladder: numbers that a metronome has, few and even."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formsheet.judge.joins import find_joins
from formsheet.judge.ladder import (
    METRONOME,
    MOST_STEPS,
    join_ladder,
    ladder,
    on_metronome,
    tune_ladder,
)
from tests.helpers import over, tune_of

TEMPOS = st.integers(40, 240)


# The scale of a clockwork metronome. Common practice, no source; from memory.
@pytest.mark.limit("judge.ladder.METRONOME")
def test_metronome_has_its_usual_numbers() -> None:
    assert METRONOME == (
        40, 42, 44, 46, 48, 50, 52, 54, 56, 58, 60, 63, 66, 69, 72, 76, 80, 84, 88, 92, 96, 100,
        104, 108, 112, 116, 120, 126, 132, 138, 144, 152, 160, 168, 176, 184, 192, 200, 208,
    )  # fmt: skip


@pytest.mark.parametrize(("tempo", "number"), [(63.9, 63), (60, 60), (119, 116), (20, 40)])
def test_tempos_round_down_to_the_metronome(tempo: float, number: int) -> None:
    assert on_metronome(tempo) == number


@given(TEMPOS, TEMPOS)
def test_ladder_rises_from_start_to_target(low: int, high: int) -> None:
    steps = ladder(low, Fraction(high))
    assert steps[-1] == high
    assert all(first < second for first, second in pairwise(steps))


@given(TEMPOS, TEMPOS)
def test_ladder_is_short_and_on_the_metronome(low: int, high: int) -> None:
    steps = ladder(low, Fraction(high))
    assert len(steps) <= MOST_STEPS
    assert all(step in METRONOME for step in steps[1:-1])


@pytest.mark.limit("judge.ladder.MOST_STEPS")
def test_ladder_as_a_teacher_would_write_it() -> None:
    assert [int(step) for step in ladder(60, Fraction(104))] == [60, 66, 69, 76, 84, 88, 96, 104]


# Our own choice. Three quarters of 80 are 60, which a metronome has; of 79 a little less.
@pytest.mark.limit("judge.ladder.HIGHEST_START")
@pytest.mark.parametrize(("tempo", "first"), [("80", 60), ("79", 58), ("120", 88)])
def test_without_joins_the_start_is_three_quarters_of_the_target(tempo: str, first: int) -> None:
    tune = tune_of(over("I", "w 2d", tempo=tempo))
    assert tune_ladder(find_joins(tune), tune.lesson.facts)[0] == first


def round_again(music: str, **facts: str) -> tuple[Fraction, ...]:
    """The ladder of the join of a bar to itself."""
    tune = tune_of(over("I", music, **facts).replace("play\n", "play x2\n"))
    (join,) = find_joins(tune)
    return join_ladder(join, tune.lesson.facts)


@pytest.mark.parametrize("music", ["w 2d", "h. 2d s 2d 5d 6d 9b"])
def test_a_join_begins_where_the_teacher_says_or_slower(music: str) -> None:
    steps = round_again(music, tempo="120", learn="50")
    assert steps[0] <= 50
    assert steps[-1] == 120


def test_a_join_of_a_tune_slower_than_the_metronome_begins_at_its_tempo() -> None:
    assert round_again("w 2d", tempo="30") == (Fraction(30),)
