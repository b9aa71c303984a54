"""The best octave for some lines that are moved together.

What is missing, changed and bent follows from the pitches alone, so it is summed up first, and only
the octaves that are best in that are searched for their moves.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from formsheet.arrange.choices import sound_choices
from formsheet.arrange.cost import MISSING, Cost
from formsheet.arrange.search import Laid, lay
from formsheet.arrange.sounds import Line, moved
from formsheet.music.harp import Harp

OCTAVE = 12
#: How far a line may be moved, in octaves.
MOST_OCTAVES = 3


@dataclass(frozen=True)
class Arranged:
    """Some lines on a harp, all moved by the same number of octaves."""

    octaves: int
    laid: tuple[Laid, ...]
    cost: Cost  # of all lines
    moving: float  # what the octaves cost, in `Cost.burden`

    @property
    def missing(self) -> int:
        """How many sounds the harp does not have."""
        return self.cost.missing

    @property
    def notes(self) -> int:
        """How many sounds there are."""
        return sum(len(laid.line) for laid in self.laid)

    @property
    def rank(self) -> tuple[bool, float, float, int]:
        """For sorting, the best first: first of all, all of it must be there."""
        return *_weighed(self.cost, self.moving), self.cost.strain, abs(self.octaves)


def _weighed(cost: Cost, moving: float) -> tuple[bool, float]:
    """Whether something lacks, and all but the moves in one number."""
    return cost.missing > 0, MISSING * cost.missing + cost.replaced + cost.burden + moving


def arrange(
    lines: Sequence[Line],
    harp: Harp,
    *,
    overbends: bool = False,
    octave_cost: float = 0.0,
    octaves: Iterable[int] = range(-MOST_OCTAVES, MOST_OCTAVES + 1),
) -> Arranged:
    """Lines on a harp in the octave that suits all of them best.

    `octave_cost` is what an octave away from the original costs for each note, in `Cost.burden`.
    """
    notes = sum(map(len, lines))
    weighed = {}
    for octave in octaves:
        there = [moved(line, octave * OCTAVE) for line in lines]
        moving = octave_cost * notes * abs(octave)
        weighed[octave] = _weighed(_still(there, harp, overbends), moving), moving, there
    least = min(weight for weight, _, _ in weighed.values())
    found = [
        _arranged(octave, there, harp, overbends, moving)
        for octave, (weight, moving, there) in weighed.items()
        if weight == least
    ]
    return min(found, key=lambda each: each.rank)


def _arranged(
    octave: int, lines: Sequence[Line], harp: Harp, overbends: bool, moving: float
) -> Arranged:
    laid = tuple(lay(line, harp, overbends) for line in lines)
    return Arranged(octave, laid, _sum(each.cost for each in laid), moving)


def _still(lines: Sequence[Line], harp: Harp, overbends: bool) -> Cost:
    """What lines cost without their moves: each sound at its cheapest."""
    return _sum(
        min(choice.cost for choice in sound_choices(sound, harp, overbends))
        for line in lines
        for sound in line
    )


def _sum(costs: Iterable[Cost]) -> Cost:
    total = Cost()
    for cost in costs:
        total = total.plus(cost)
    return total
