"""Tab: holes, breath and bend, without pitch."""

from __future__ import annotations

from enum import Enum
from functools import cached_property
from typing import NamedTuple

from formsheet.music.tunings import HOLES

#: Most holes under the mouth, from the lowest to the highest. Common practice, no source.
WIDEST_REACH = 5


class Breath(Enum):
    """Blow is out, draw is in."""

    BLOW = "b"
    DRAW = "d"

    @property
    def word(self) -> str:
        """The breath as players say it."""
        return "blow" if self is Breath.BLOW else "draw"

    @property
    def other(self) -> Breath:
        """The opposite breath."""
        return Breath.DRAW if self is Breath.BLOW else Breath.BLOW


class Shape(Enum):
    """The mouth's shape for a note."""

    SINGLE = "single"
    BLOCK = "block"
    SPLIT = "split"


class _Written(NamedTuple):
    """The fields of a `Tab`."""

    holes: tuple[int, ...]
    breath: Breath
    bend: int = 0
    overbend: bool = False


class Tab(_Written):
    """One mark of tab: holes as written, breath, bend in half steps, overbend."""

    def __str__(self) -> str:
        over = "o" if self.overbend else ""
        return f"{''.join(map(str, self.holes))}{over}{self.breath.value}{self.bend * chr(39)}"

    @property
    def span(self) -> int:
        """The number of holes under the mouth, from the lowest to the highest."""
        return max(self.holes) - min(self.holes) + 1

    @cached_property
    def shape(self) -> Shape:
        """Single note, block of neighbours, or split of two outer holes."""
        if len(self.holes) == 1:
            return Shape.SINGLE
        return Shape.BLOCK if self.span == len(self.holes) else Shape.SPLIT


def shaken(tab: Tab) -> tuple[Tab, Tab] | None:
    """The two sounds of a shake; None where there is no hole above.

    A single note alternates with the next hole up, two neighbouring holes with each other, a wider
    block with the block one hole up (common practice, no source).
    """
    if len(tab.holes) == 2 and tab.shape is Shape.BLOCK:
        low, high = tab.holes
        return Tab((low,), tab.breath), Tab((high,), tab.breath)
    if max(tab.holes) >= HOLES:
        return None
    return tab, Tab(tuple(hole + 1 for hole in tab.holes), tab.breath)
