"""The cost of a tab for the player, in order of importance.

Missing notes first (`missing`), then changed chords (`replaced`), then bends and high holes
(`burden`), then the moves from note to note (`strain`). Each is a sum over the line. For tabs of
the same pitches the costs are compared in this order; to compare octaves, harps and positions,
`octaves.Arranged.rank` adds the first three. The weights are our own choice, with reasons in
DEVELOPERS.md.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import NamedTuple

from formsheet.judge.effort import move
from formsheet.music.tab import Tab

#: A bent note: the first half step, and each further one. Playing any bend in tune is most of it.
FIRST_BEND = 2
FURTHER_BEND = 1
#: An overblow or overdraw: more than the deepest bend.
OVERBEND = 6
#: A natural note on the top holes: the reeds are small, and the blow reed is the higher one.
HIGH_NOTE = 1
FIRST_HIGH_HOLE = 8
#: A note that the harp does not have: as much as five bends.
MISSING = 10
#: A note that should bend for its technique, and cannot.
STIFF = 1

#: Extra seconds for a move to or from a natural note that cannot be bent, if another hole has the
#: same note and can. Players prefer 2 draw to 3 blow, for its tone and its bends, unless 3 blow is
#: much easier to reach. Common practice, no source; the number is our own choice.
UNBENDING = 0.05

#: Seconds for a quarter, whatever the tempo: moves are only compared with each other.
_QUARTER_S = 0.6


class Cost(NamedTuple):
    """The cost of a tab; smaller is better, compared field by field."""

    missing: int = 0  # notes that the harp does not have
    replaced: int = 0  # how far chords are from what was asked, see `fallbacks.Kept`
    burden: float = 0  # bends and high holes
    strain: float = 0.0  # sum over moves of (time needed / time there is) squared

    def plus(self, other: Cost) -> Cost:
        """The sum, field by field."""
        return Cost(
            self.missing + other.missing,
            self.replaced + other.replaced,
            self.burden + other.burden,
            self.strain + other.strain,
        )


def burden(tab: Tab) -> int:
    """The cost of bend and hole of one note."""
    high = HIGH_NOTE if max(tab.holes) >= FIRST_HIGH_HOLE else 0
    if tab.overbend:
        return high + OVERBEND
    if tab.bend:
        return high + FIRST_BEND + FURTHER_BEND * (tab.bend - 1)
    return high


def strain(first: Tab, second: Tab, gap: Fraction, more: float = 0.0) -> float:
    """The cost of a move: the time it takes without hurry over the time available, squared.

    Squared, because one hard move is worse than three easy ones. `gap` is in quarters between the
    onsets; `more` are extra seconds.
    """
    return ((_seconds(first, second) + more) / (float(gap) * _QUARTER_S)) ** 2


@cache
def _seconds(first: Tab, second: Tab) -> float:
    return move(first, second).seconds
