"""The tempo ladder: from a tempo to start at up to the tempo of the tune, in beats a minute.

A student starts at the tempo at which the hardest move is easy, on a metronome mark, and goes up
in as few marks as possible, none more than 15 per cent above the one before, as even as the
marks allow. Our own choice.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.judge.joins import PlayedMove
from formsheet.lesson.model import Facts

#: The numbers on a metronome, beats a minute. Common practice, no source.
METRONOME: tuple[int, ...] = (
    *range(40, 60, 2),
    *range(60, 72, 3),
    *range(72, 120, 4),
    *range(120, 144, 6),
    *range(144, 209, 8),
)
#: The largest step: the next tempo over the one before.
LARGEST_STEP = Fraction(115, 100)


def easiest_start(moves: Sequence[PlayedMove], target: Fraction) -> float:
    """The tempo at which the hardest of the moves is easy, at most the target."""
    return min([float(target), *(each.easy_tempo for each in moves)])


def start_tempo(moves: Sequence[PlayedMove], target: Fraction) -> Fraction:
    """The tempo to start at: a metronome mark, or the target where all is easy there.

    Not under the slowest mark, unless the target is.
    """
    easy = easiest_start(moves, target)
    return target if easy >= target else min(target, Fraction(on_metronome(easy)))


def tune_ladder(moves: Sequence[PlayedMove], facts: Facts) -> tuple[Fraction, ...]:
    """The ladder of a tune: from its `learn`, or from its hardest move where it has none."""
    return ladder(facts.learn or start_tempo(moves, facts.tempo), facts.tempo)


def own_ladder(moves: Sequence[PlayedMove], facts: Facts) -> tuple[Fraction, ...]:
    """The ladder of a lick or a join: from where its own hardest move is easy."""
    return ladder(start_tempo(moves, facts.tempo), facts.tempo)


def on_metronome(tempo: float) -> int:
    """The metronome number at or below a tempo; the slowest one for a slower tempo."""
    return max((number for number in METRONOME if number <= tempo), default=METRONOME[0])


def slowest_mark(target: Fraction) -> float:
    """The slowest tempo of any ladder to a target: the first mark, or a target below it."""
    return float(min(target, Fraction(METRONOME[0])))


def ladder(start: float | Fraction, target: Fraction) -> tuple[Fraction, ...]:
    """Tempos from start to target: metronome marks between, as few as the largest step allows.

    Of ladders of the same length the one whose largest step is smallest. Where the marks are too
    far apart (a start or target beyond them), a step may be larger.
    """
    low, high = Fraction(start), target
    if low >= high:
        return (high,)
    marks = [low, *(Fraction(each) for each in METRONOME if low < each < high), high]
    # The fewest steps to each mark, then the smallest of the largest steps; and from which mark.
    best: list[tuple[int, Fraction, int]] = [(0, Fraction(1), 0)]
    for at in range(1, len(marks)):
        ways = [
            (best[before][0] + 1, max(best[before][1], marks[at] / marks[before]), before)
            for before in range(at)
            if marks[at] <= marks[before] * LARGEST_STEP or before == at - 1
        ]
        best.append(min(ways))
    at, steps = len(marks) - 1, [high]
    while at:
        at = best[at][2]
        steps.append(marks[at])
    return tuple(reversed(steps))
