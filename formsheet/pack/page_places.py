"""What a student may play round and round: the tune, its choruses, its licks and its joins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.judge.joins import Join, home
from formsheet.judge.ladder import ladder, start_tempo
from formsheet.lesson.model import Facts
from formsheet.pack.view import Chorus
from formsheet.tune.timeline import Tune


@dataclass(frozen=True, slots=True)
class Place:
    """A stretch of whole bars of the tune, by index, both ends counted."""

    first: int
    last: int


def whole_tune(tune: Tune) -> Place:
    """From the first full bar to the end; a pick-up leads in."""
    first = next(index for index, bar in enumerate(tune.bars) if bar.number)
    return Place(first, len(tune.bars) - 1)


def chorus_places(choruses: Sequence[Chorus]) -> list[Place]:
    """Each printed chorus, or what is printed of it, as it is first played."""
    return [Place(chorus.stands_for[0][0], chorus.stands_for[-1][0]) for chorus in choruses]


def lick_places(tune: Tune) -> list[Place]:
    """For each lick that is played, in order of appearance, where it is first played."""
    found: dict[str, Place] = {}
    for index, bar in enumerate(tune.bars):
        if bar.lick and bar.slot.bar_in_lick == 0:
            found.setdefault(bar.lick.name, Place(index, index + len(bar.lick.bars) - 1))
    return list(found.values())


def join_place(join: Join) -> Place:
    """Where a join is first played: the bar of its last note through the bar of its first.

    Whole bars, so that the count stays the same round and round.
    """
    return Place(join.last.bar, max(home(join.first), join.last.bar))


def join_ladder(join: Join, facts: Facts) -> tuple[Fraction, ...]:
    """The tempos of a join: from where it is easy, or the lesson's `learn`, to the target."""
    start = Fraction(start_tempo([join], facts.tempo))
    return ladder(float(min(start, facts.learn or start)), facts.tempo)
