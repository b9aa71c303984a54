"""The tempo ladder: from a tempo to start at up to the tempo of the tune, in beats a minute.

A student starts at the tempo at which the hardest move is easy, on a metronome mark, and goes up
in as few marks as possible, none more than 15 per cent above the one before, as even as the
marks allow. So there are fifteen numbers at most from 40 to 208. Our own choice.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from formsheet.judge.joins import Pair, PlayedMove
from formsheet.lesson.model import Facts

#: The numbers on a clockwork metronome, beats a minute. Common practice, no source.
METRONOME: tuple[int, ...] = (
    *range(40, 60, 2),
    *range(60, 72, 3),
    *range(72, 120, 4),
    *range(120, 144, 6),
    *range(144, 209, 8),
)
#: Slower and faster ones, which an electronic metronome has: the scale goes on as it ends.
SLOWER = range(20, 40, 2)
FASTER = range(216, 300, 8)
_SCALE = (*SLOWER, *METRONOME, *FASTER)
#: The largest step: the next tempo over the one before.
LARGEST_STEP = Fraction(115, 100)
#: The most numbers of a ladder. Beyond the clockwork metronome more would be needed (40 to 300):
#: there the steps are larger.
MOST_NUMBERS = 15


def easiest_start(moves: Sequence[PlayedMove | Pair], target: Fraction) -> float:
    """The tempo at which the hardest of the moves is easy, at most the target."""
    return min([float(target), *(each.easy_tempo for each in moves)])


def start_tempo(moves: Sequence[PlayedMove | Pair], target: Fraction) -> Fraction:
    """The tempo to start at: a metronome mark, or the target where all is easy there.

    Not under the slowest mark, unless the target is.
    """
    easy = easiest_start(moves, target)
    return target if easy >= target else min(target, Fraction(on_metronome(easy)))


def first_tempo(moves: Sequence[PlayedMove | Pair], facts: Facts) -> Fraction:
    """Where the ladder of a tune begins: at its `learn`, else where its hardest move is easy."""
    return min(facts.learn or start_tempo(moves, facts.tempo), facts.tempo)


def tune_ladder(moves: Sequence[PlayedMove], facts: Facts) -> tuple[Fraction, ...]:
    """The ladder of a tune."""
    return ladder(first_tempo(moves, facts), facts.tempo)


def own_ladder(moves: Sequence[PlayedMove], facts: Facts) -> tuple[Fraction, ...]:
    """The ladder of a lick or a join: from where its own hardest move is easy."""
    return ladder(start_tempo(moves, facts.tempo), facts.tempo)


def on_metronome(tempo: float) -> int:
    """The metronome number at or below a tempo; the slowest one for a slower tempo."""
    return max((number for number in METRONOME if number <= tempo), default=METRONOME[0])


def slowest_mark(target: Fraction) -> float:
    """The slowest tempo of any ladder to a target: the first mark, or a target below it."""
    return float(min(target, Fraction(METRONOME[0])))


def step_below(steps: Sequence[Fraction], tempo: float) -> Fraction | None:
    """The largest step of a ladder that is not above a tempo; None if all are."""
    return max((step for step in steps if step <= tempo), default=None)


@lru_cache(256)
def ladder(start: Fraction, target: Fraction) -> tuple[Fraction, ...]:
    """Tempos from start to target: metronome marks between, as few as the largest step allows.

    Of ladders of the same length the most even one.
    """
    if start >= target:
        return (target,)
    between = _SCALE[bisect_right(_SCALE, start) : bisect_left(_SCALE, target)]
    marks = [start, *map(Fraction, between), target]
    found = _fewest(marks)
    return found if len(found) <= MOST_NUMBERS else _most_even(marks)


def _fewest(marks: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """From the first mark to the last in the fewest steps within the limit, as even as can be."""
    logs = _logarithms(marks)
    best: list[tuple[int, float, int]] = [(0, 0.0, 0)]  # steps to a mark, unevenness, from which
    for at in range(1, len(marks)):
        lowest = marks[at] / LARGEST_STEP
        ways: list[tuple[int, float, int]] = []
        for before in range(at - 1, -1, -1):
            if ways and marks[before] < lowest:
                break
            steps, uneven, _ = best[before]
            ways.append((steps + 1, uneven + (logs[at] - logs[before]) ** 2, before))
        best.append(min(ways))
    at, found = len(marks) - 1, [marks[-1]]
    while at:
        at = best[at][2]
        found.append(marks[at])
    return tuple(reversed(found))


def _most_even(marks: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """From the first mark to the last in the most steps that are allowed, as even as can be."""
    logs = _logarithms(marks)
    best: dict[int, tuple[float, tuple[int, ...]]] = {0: (0.0, (0,))}  # way to each mark
    for _ in range(MOST_NUMBERS - 1):
        best = {
            at: min(
                (uneven + (logs[at] - logs[way[-1]]) ** 2, (*way, at))
                for uneven, way in best.values()
                if way[-1] < at
            )
            for at in range(min(best) + 1, len(marks))
        }
    return tuple(marks[at] for at in best[len(marks) - 1][1])


def _logarithms(marks: Sequence[Fraction]) -> list[float]:
    """Their squared differences add up to the least where all steps are equal."""
    return [math.log(mark) for mark in marks]
