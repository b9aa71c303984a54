"""The tempo ladder: from a tempo to start at up to the tempo of the tune, in beats a minute.

A student starts at the tempo at which the hardest move is easy, on a metronome mark, and goes up
in as few marks as possible, none more than 15 per cent above the one before, as even as the
marks allow. So there are fifteen numbers at most from 40 to 208. Our own choice.
"""

from __future__ import annotations

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
#: The largest step: the next tempo over the one before.
LARGEST_STEP = Fraction(115, 100)
#: The most numbers of a ladder. Beyond the clockwork metronome more would be needed (40 to 300):
#: there the steps are larger.
MOST_NUMBERS = 15
#: How much larger they become at a time.
LARGER = Fraction(1, 50)


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


@lru_cache(256)
def ladder(start: Fraction, target: Fraction) -> tuple[Fraction, ...]:
    """Tempos from start to target: metronome marks between, as few as the largest step allows.

    Of ladders of the same length the one whose largest step is smallest.
    """
    if start >= target:
        return (target,)
    step = LARGEST_STEP
    while len(found := _climb(start, target, step)) > MOST_NUMBERS:
        step += LARGER
    return found


def _climb(start: Fraction, target: Fraction, largest: Fraction) -> tuple[Fraction, ...]:
    """The ladder without a step over `largest`, as far as the marks allow."""
    scale = (*SLOWER, *METRONOME, *FASTER)
    marks = [start, *(Fraction(each) for each in scale if start < each < target), target]
    # The fewest steps to each mark, then the smallest of the largest steps; and from which mark.
    best: list[tuple[int, Fraction, int]] = [(0, Fraction(1), 0)]
    for at in range(1, len(marks)):
        ways: list[tuple[int, Fraction, int]] = []
        for before in range(at - 1, -1, -1):
            step = marks[at] / marks[before]
            if step > largest and ways:
                break
            steps, so_far, _ = best[before]
            ways.append((steps + 1, max(so_far, step), before))
        best.append(min(ways))
    at, found = len(marks) - 1, [target]
    while at:
        at = best[at][2]
        found.append(marks[at])
    return tuple(reversed(found))
