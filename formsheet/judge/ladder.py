"""The tempo ladder: from a tempo to start at up to the tempo of the tune, in beats a minute."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.judge.joins import Join
from formsheet.lesson.model import Facts

#: The numbers on a metronome, beats a minute. Common practice, no source.
METRONOME: tuple[int, ...] = (
    *range(40, 60, 2),
    *range(60, 72, 3),
    *range(72, 120, 4),
    *range(120, 144, 6),
    *range(144, 209, 8),
)
MOST_STEPS = 8
#: The highest start tempo, as a share of the target. Our own choice.
HIGHEST_START = 0.75


def start_tempo(joins: Sequence[Join], target: Fraction) -> int:
    """The start tempo: the metronome number at or below the tempo of the hardest join.

    At most three quarters of the target, since the licks have to be learned even if the joins are
    easy; at least the slowest number of the metronome.
    """
    highest = float(target) * HIGHEST_START
    return on_metronome(min([highest, *(join.easy_tempo for join in joins)]))


def tune_ladder(joins: Sequence[Join], facts: Facts) -> tuple[Fraction, ...]:
    """The ladder of a tune: from its `learn`, or from its hardest join where it has none."""
    return ladder(float(facts.learn or start_tempo(joins, facts.tempo)), facts.tempo)


def join_ladder(join: Join, facts: Facts) -> tuple[Fraction, ...]:
    """The ladder of a join: from where it is easy, or from `learn` where that is slower."""
    start = Fraction(start_tempo([join], facts.tempo))
    return ladder(float(min(start, facts.learn or start)), facts.tempo)


def on_metronome(tempo: float) -> int:
    """The metronome number at or below a tempo; the slowest one for a slower tempo."""
    return max((number for number in METRONOME if number <= tempo), default=METRONOME[0])


def ladder(start: float, target: Fraction) -> tuple[Fraction, ...]:
    """Tempos from start to target, at most eight, metronome numbers between the two.

    The ratios of the steps are as even as the metronome allows, so that each step feels alike.
    """
    low, high = Fraction(start), target
    if low >= high:
        return (high,)
    between = [number for number in METRONOME if low < number < high]
    wanted = min(MOST_STEPS - 2, len(between))
    ratio = (float(high) / float(low)) ** (1 / (wanted + 1))
    steps: list[int] = []
    for step in range(1, wanted + 1):
        ideal = float(low) * ratio**step
        left = [number for number in between if not steps or number > steps[-1]]
        if left:
            steps.append(min(left, key=lambda number: abs(number - ideal)))
    return (low, *map(Fraction, steps), high)
