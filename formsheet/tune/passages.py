"""Passages of a tune: the whole tune, and each lick where it is first played whole."""

from __future__ import annotations

from typing import NamedTuple

from formsheet.lesson.model import Lick
from formsheet.tune.timeline import Tune, goes_on


class Passage(NamedTuple):
    """A range of whole bars of a tune: index of the first and of the last, both included."""

    first: int
    last: int

    @property
    def bars(self) -> int:
        """The number of bars."""
        return self.last - self.first + 1


def whole_tune(tune: Tune) -> Passage:
    """From the first full bar to the end, without the pick-up bar."""
    first = next(index for index, bar in enumerate(tune.bars) if bar.number)
    return Passage(first, len(tune.bars) - 1)


def lick_passages(tune: Tune) -> list[tuple[Lick, Passage]]:
    """Each lick that is played whole, and where it is first, in order of place.

    A lick of which a last time always cuts a part is left out: the tune has no chords for the
    bars that are cut.
    """
    found: dict[str, tuple[Lick, Passage]] = {}
    first = 0  # index of the bar in which the current round of a lick began
    for index, bar in enumerate(tune.bars):
        if not index or not goes_on(tune.bars[index - 1], bar):
            first = index
        if bar.lick and index - first + 1 == len(bar.lick.bars):
            found.setdefault(bar.lick.name, (bar.lick, Passage(first, index)))
    return list(found.values())
