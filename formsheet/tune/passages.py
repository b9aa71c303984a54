"""Passages of a tune: all of it, and each of its licks where it is first played whole."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.lesson.model import Lick
from formsheet.tune.timeline import Tune, goes_on


@dataclass(frozen=True, slots=True)
class Passage:
    """Whole bars of a tune, by index, both ends counted."""

    first: int
    last: int

    @property
    def bars(self) -> int:
        """How many bars it has."""
        return self.last - self.first + 1


def whole_tune(tune: Tune) -> Passage:
    """From the first full bar to the end; a pick-up leads in."""
    first = next(index for index, bar in enumerate(tune.bars) if bar.number)
    return Passage(first, len(tune.bars) - 1)


def lick_passages(tune: Tune) -> list[tuple[Lick, Passage]]:
    """Each lick that is played whole, and where it first is, in the order of these places.

    A lick of which the last time always leaves but a part is not among them: over the bars that
    are left out there are no chords that it is played on, and a student need not practise it.
    """
    found: dict[str, tuple[Lick, Passage]] = {}
    first = 0  # index of the bar in which the run of bars began that a bar goes on with
    for index, bar in enumerate(tune.bars):
        if not index or not goes_on(tune.bars[index - 1], bar):
            first = index
        if bar.lick and index - first + 1 == len(bar.lick.bars):
            found.setdefault(bar.lick.name, (bar.lick, Passage(first, index)))
    return list(found.values())
