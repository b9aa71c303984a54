"""The tempo ladder: where practice starts, and the numbers from there to the tempo of the tune."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations, pairwise
from statistics import pstdev

import pytest

from formsheet.judge.joins import find_joins, find_moves
from formsheet.judge.ladder import (
    METRONOME,
    first_tempo,
    ladder,
    on_metronome,
    own_ladder,
    start_tempo,
    tune_ladder,
)
from formsheet.tune.timeline import Tune
from tests.helpers import over, tune_of

# The scale of a clockwork metronome. Common practice, no source; from memory.
CLOCKWORK = (
    40, 42, 44, 46, 48, 50, 52, 54, 56, 58, 60, 63, 66, 69, 72, 76, 80, 84, 88, 92, 96, 100,
    104, 108, 112, 116, 120, 126, 132, 138, 144, 152, 160, 168, 176, 184, 192, 200, 208,
)  # fmt: skip
#: Slower and faster numbers: the scale goes on as it ends. Our own choice.
SLOWER = (20, 22, 24, 26, 28, 30, 32, 34, 36, 38)
FASTER = (216, 224, 232, 240, 248, 256, 264, 272, 280, 288, 296)
#: As a teacher would write them. Our own choice.
WRITTEN = [
    "40 44",
    "44 48 54 60",
    "40 44 50 56 63 72",
    "52 58 63 69 76 84",
    "48 54 60 69 76 84 96",
    "60 69 76 84 92 104",
    "63 69 76 84 96 108 120",
    "56 63 72 80 88 100 112 126 138",
    "80 88 100 112 126 144 160",
    "40 44 50 56 63 72 80 88 100 112 126 144 160 184 208",
]


def numbers(steps: tuple[Fraction, ...]) -> list[float]:
    return [float(step) for step in steps]


def fewest(start: int, target: int) -> int:
    """The fewest numbers of a ladder: each as high as 15 per cent allow."""
    at, count = start, 1
    while at < target:
        at = max(each for each in (*CLOCKWORK, target) if each <= target and near(at, each))
        count += 1
    return count


def near(low: float, high: float) -> bool:
    """Whether a number is above another, by 15 per cent at most."""
    return low < high and 100 * high <= 115 * low


@pytest.mark.limit("judge.ladder.METRONOME")
def test_metronome_has_its_usual_numbers() -> None:
    assert METRONOME == CLOCKWORK


@pytest.mark.parametrize(("tempo", "number"), [(63.9, 63), (60, 60), (119, 116), (20, 40)])
def test_tempos_round_down_to_the_metronome(tempo: float, number: int) -> None:
    assert on_metronome(tempo) == number


# ---- Every start and every target ------------------------------------------------------------


@pytest.mark.limit("judge.ladder.LARGEST_STEP", "judge.ladder.MOST_NUMBERS")
def test_every_ladder_on_the_metronome_follows_the_rule() -> None:
    """Whole starts and targets from 40 to 208, all of them."""
    for target in range(40, 209):
        for start in range(40, target + 1):
            steps = numbers(ladder(Fraction(start), Fraction(target)))
            said = f"{start} to {target}: {steps}"
            assert steps[0] == start, said
            assert steps[-1] == target, said
            assert all(near(low, high) for low, high in pairwise(steps)), said
            assert all(step in CLOCKWORK for step in steps[1:-1]), said
            assert len(steps) == (fewest(start, target) if start < target else 1), said
            assert len(steps) <= 15, said


@pytest.mark.parametrize("written", WRITTEN)
def test_ladder_as_a_teacher_would_write_it(written: str) -> None:
    start, *_, target = map(Fraction, written.split())
    assert " ".join(map(str, ladder(start, target))) == written


def test_of_ladders_of_one_length_the_most_even_is_taken() -> None:
    """Of all ladders that are as short, none has steps that are nearer to each other."""
    for start, target in ((60, 104), (40, 72), (63, 120), (100, 120), (66, 120)):
        marks = [each for each in CLOCKWORK if start < each < target]
        steps = [float(step) for step in ladder(Fraction(start), Fraction(target))]
        others = [(start, *between, target) for between in combinations(marks, len(steps) - 2)]
        allowed = [each for each in others if all(near(*pair) for pair in pairwise(each))]
        assert len(allowed) > 1
        assert unevenness(steps) == pytest.approx(min(map(unevenness, allowed)))


def unevenness(steps: Sequence[float]) -> float:
    """How far the steps are from each other."""
    return pstdev(math.log(high / low) for low, high in pairwise(steps))


# ---- Beyond the clockwork metronome ----------------------------------------------------------


# Our own choice. `learn` may be any tempo from 20 on, and `tempo` any up to 300.
@pytest.mark.limit("judge.ladder.SLOWER", "judge.ladder.FASTER")
@pytest.mark.parametrize(
    ("start", "target", "written"),
    [
        (20, 40, "20 22 24 26 28 32 36 40"),
        (29, 39, "29 32 36 39"),
        (30, 50, "30 34 38 42 46 50"),
        (38, 52, "38 42 46 52"),
        (200, 216, "200 216"),
        (176, 240, "176 192 216 240"),
        (208, 300, "208 232 264 300"),
        (290, 299, "290 299"),
    ],
)
def test_slower_and_faster_the_scale_goes_on(start: int, target: int, written: str) -> None:
    steps = ladder(Fraction(start), Fraction(target))
    assert " ".join(map(str, steps)) == written
    assert set(steps[1:-1]) <= {*SLOWER, *CLOCKWORK, *FASTER}


@pytest.mark.limit("judge.ladder.MOST_NUMBERS")
@pytest.mark.parametrize(("start", "largest"), [(60, 1.15), (50, 1.17), (43, 1.17), (20, 1.25)])
def test_where_more_than_fifteen_would_be_needed_the_steps_are_larger(
    start: int, largest: float
) -> None:
    steps = numbers(ladder(Fraction(start), Fraction(300)))
    assert len(steps) == 15
    assert (steps[0], steps[-1]) == (start, 300)
    assert max(high / low for low, high in pairwise(steps)) <= largest


# ---- Where practice starts -------------------------------------------------------------------


def round_again(music: str, **facts: str) -> Tune:
    """A bar played twice."""
    return tune_of(over("I", music, **facts).replace("play\n", "play x2\n"))


def start_of(music: str, **facts: str) -> Fraction:
    tune = tune_of(over("I", music, **facts))
    return start_tempo(find_moves(tune), tune.lesson.facts.tempo)


# A slide from 2 to 6 takes 349 ms at ease, an eighth lasts 30 s / tempo: easy at 86, so at 84.
@pytest.mark.parametrize(
    ("tempo", "start"), [("208", 84), ("120", 84), ("87", 84), ("85", 85), ("60", 60), ("30", 30)]
)
def test_practice_starts_where_the_hardest_move_is_easy(tempo: str, start: int) -> None:
    assert start_of("e 2d 6d h 6d q 6d", tempo=tempo) == start


@pytest.mark.parametrize(("tempo", "start"), [("208", 40), ("41", 40), ("40", 40), ("39", 39)])
def test_practice_never_starts_under_40_nor_above_the_target(tempo: str, start: int) -> None:
    assert start_of("s 2d 9b' 1d 10b'' q - h 2d", tempo=tempo) == start


def test_a_tune_of_one_note_starts_at_its_tempo() -> None:
    assert start_of("w 2d", tempo="104") == 104


def test_the_ladder_starts_where_the_lesson_says() -> None:
    tune = tune_of(over("I", "e 2d 6d h 6d q 6d", tempo="120", learn="50"))
    moves = find_moves(tune)
    assert first_tempo(moves, tune.lesson.facts) == 50
    assert tune_ladder(moves, tune.lesson.facts)[0] == 50
    assert tune_ladder(moves, tune.lesson.facts)[-1] == 120


def test_without_that_it_starts_where_the_hardest_move_is_easy() -> None:
    tune = tune_of(over("I", "e 2d 6d h 6d q 6d", tempo="120"))
    assert tune_ladder(find_moves(tune), tune.lesson.facts)[0] == 84


@pytest.mark.parametrize("learn", [None, "50"])
def test_each_join_starts_where_it_is_easy_itself(learn: str | None) -> None:
    """Not where the hardest move of the tune is easy, nor where the tune starts."""
    facts = {"learn": learn} if learn else {}
    tune = round_again("h 2d s 2d 6d e - q 3d", tempo="120", **facts)
    (join,) = find_joins(tune)
    assert numbers(own_ladder([join], tune.lesson.facts)) == [120]
    hardest = find_moves(tune)[0]
    assert own_ladder([hardest], tune.lesson.facts)[0] == 42


def test_a_ladder_of_a_tune_slower_than_the_metronome_is_its_tempo() -> None:
    tune = round_again("w 2d", tempo="30")
    assert own_ladder(find_joins(tune), tune.lesson.facts) == (Fraction(30),)
