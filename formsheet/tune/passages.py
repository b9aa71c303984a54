"""Passages of a tune: all of it, and each of its licks where it is first played."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.lesson.model import Lick
from formsheet.tune.timeline import Tune


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
    """Each lick that is played, in order of appearance, and where it is first played."""
    found: dict[str, tuple[Lick, Passage]] = {}
    for index, bar in enumerate(tune.bars):
        if bar.lick and bar.slot.bar_in_lick == 0:
            passage = Passage(index, index + len(bar.lick.bars) - 1)
            found.setdefault(bar.lick.name, (bar.lick, passage))
    return list(found.values())
