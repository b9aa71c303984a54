"""What a tab costs its player, in the order in which a player would weigh it.

First everything must be there (`missing`), then chords as they were (`replaced`), then bends and
the top of the harp (`burden`), then the moves from note to note (`strain`). Each is a sum over the
line. Of two tabs at one pitch the earlier counts decide; where octaves, harps and positions are
weighed against each other, `octaves.Arranged.rank` puts the first three into one number. The
weights are our own choice, with reasons in DEVELOPERS.md.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import NamedTuple

from formsheet.judge.effort import move
from formsheet.music.tab import Tab

#: A bent note: the first half step, and each further one. Finding any bend in tune is most of it.
FIRST_BEND = 2
FURTHER_BEND = 1
#: An overblow or overdraw: more than the deepest bend.
OVERBEND = 6
#: A natural note on the top holes: small reeds, and blow and draw change places there.
HIGH_NOTE = 1
FIRST_HIGH_HOLE = 8
#: A note that is not there: as much as five bends.
MISSING = 10
#: A note that should bend for its technique, and does not.
STIFF = 1

#: Seconds more that a move into or out of a natural note counts which does not bend, where
#: another hole has the same note and does. Players take 2 draw for 3 blow, for its tone and its
#: bends, unless 3 blow saves real work. Common practice, no source; the number is our own.
UNBENDING = 0.05

#: Seconds a quarter takes where none is said: the moves are weighed against each other only.
_QUARTER_S = 0.6


class Cost(NamedTuple):
    """What a tab costs; smaller is better, the earlier counts decide."""

    missing: int = 0  # notes that the harp does not have
    replaced: int = 0  # how far chords are from what was asked, see `fallbacks.Kept`
    burden: float = 0  # bends and high holes
    strain: float = 0.0  # sum over moves of (time needed / time there is) squared

    def plus(self, other: Cost) -> Cost:
        """Both together."""
        return Cost(
            self.missing + other.missing,
            self.replaced + other.replaced,
            self.burden + other.burden,
            self.strain + other.strain,
        )


def burden(tab: Tab) -> int:
    """What bend and hole of one note cost."""
    high = HIGH_NOTE if max(tab.holes) >= FIRST_HIGH_HOLE else 0
    if tab.overbend:
        return high + OVERBEND
    if tab.bend:
        return high + FIRST_BEND + FURTHER_BEND * (tab.bend - 1)
    return high


def strain(first: Tab, second: Tab, gap: Fraction, more: float = 0.0) -> float:
    """What a move costs: the share of its time that it takes at ease, squared.

    Squared, because one hard join trips a student where three easy ones do not. `more` is in
    seconds, on top of the move's own.
    """
    return ((_seconds(first, second) + more) / (float(gap) * _QUARTER_S)) ** 2


@cache
def _seconds(first: Tab, second: Tab) -> float:
    return move(first, second).seconds
