"""The best octave for some lines that are moved together.

Missing, changed and bent notes depend on the pitches alone, so they are summed first; only the
octaves that are best in this are searched for their moves.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from formsheet.arrange.choices import sound_choices
from formsheet.arrange.cost import MISSING, Cost
from formsheet.arrange.search import Laid
from formsheet.arrange.sounds import Line, moved
from formsheet.arrange.together import lay_together
from formsheet.judge.joins import JoinedMarks
from formsheet.music.harp import Harp

OCTAVE = 12
#: Most octaves that a line may be moved.
MOST_OCTAVES = 3


@dataclass(frozen=True)
class Arranged:
    """Some lines on a harp, all moved by the same number of octaves."""

    octaves: int
    laid: tuple[Laid, ...]
    cost: Cost  # of all lines and their joins
    moving: float  # cost of the octaves, in units of `Cost.burden`

    @property
    def missing(self) -> int:
        """The number of sounds that the harp does not have."""
        return self.cost.missing

    @property
    def notes(self) -> int:
        """The number of sounds."""
        return sum(len(laid.line) for laid in self.laid)

    @property
    def rank(self) -> tuple[bool, float, float, int]:
        """A sort key, the best first: nothing missing, then the other costs."""
        return *_weighed(self.cost, self.moving), self.cost.strain, abs(self.octaves)


def _weighed(cost: Cost, moving: float) -> tuple[bool, float]:
    """Whether anything is missing, and the cost without moves as one number."""
    return cost.missing > 0, MISSING * cost.missing + cost.replaced + cost.burden + moving


def arrange(
    lines: Sequence[Line],
    harp: Harp,
    *,
    overbends: bool = False,
    octave_cost: float = 0.0,
    octaves: Iterable[int] = range(-MOST_OCTAVES, MOST_OCTAVES + 1),
    joins: Sequence[JoinedMarks] = (),
) -> Arranged:
    """Lines on a harp, in the octave that is best for all of them together.

    `octave_cost` is the cost of each octave of distance for each note, in units of `Cost.burden`;
    `joins` are the marks in which the lines meet.
    """
    notes = sum(map(len, lines))
    weighed = {}
    for octave in octaves:
        there = [moved(line, octave * OCTAVE) for line in lines]
        moving = octave_cost * notes * abs(octave)
        weighed[octave] = _weighed(_still(there, harp, overbends), moving), moving, there
    least = min(weight for weight, _, _ in weighed.values())
    found = [
        _arranged(octave, there, harp, overbends, moving, joins)
        for octave, (weight, moving, there) in weighed.items()
        if weight == least
    ]
    return min(found, key=lambda each: each.rank)


def _arranged(
    octave: int,
    lines: Sequence[Line],
    harp: Harp,
    overbends: bool,
    moving: float,
    joins: Sequence[JoinedMarks],
) -> Arranged:
    together = lay_together(lines, harp, overbends, joins)
    return Arranged(octave, together.laid, together.cost, moving)


def _still(lines: Sequence[Line], harp: Harp, overbends: bool) -> Cost:
    """The cost of lines without moves: the cheapest choice for each sound."""
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
