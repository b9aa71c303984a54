"""The tempo and the feel of some attacks, where nobody has said them.

Tempi are tried; the plainest notation that fits wins. Half and double tempo fit as well as each
other: the one nearer to a usual tempo is taken, and the others are named.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log2
from typing import NamedTuple

from formsheet.hearing.beat_grid import Grid, fitted
from formsheet.music.swing import STRAIGHT, SWING, Feel

SLOWEST, FASTEST = 50.0, 180.0  # beats a minute that are tried; our own choice
_STEP = 1.025
_USUAL, _SPREAD = 92.0, 0.45  # beats a minute, octaves
_MOST_ATTACKS = 32  # notes that are looked at
_A_BEAT = 0.25  # cost of each beat that a tempo makes of the notes
_APART = 0.14  # octaves: nearer tempi are one
_FIRST_PLACES = (0.0, 0.5)  # of the first note in its beat


class Tempo(NamedTuple):
    """A tempo with its feel and the grid that it makes."""

    beat: float  # seconds
    feel: Feel
    grid: Grid
    cost: float

    @property
    def per_minute(self) -> float:
        """Beats a minute."""
        return 60 / self.beat


def feel_of(
    attacks: Sequence[float], zero: float, beat: float, compound: bool, fixed: bool
) -> Feel:
    """Swing or straight, whichever fits better; straight where nothing decides."""
    if compound:
        return STRAIGHT
    straight, swung = (
        fitted(attacks, zero, beat, feel, compound, fixed=fixed).cost for feel in (STRAIGHT, SWING)
    )
    return SWING if swung < straight - 0.05 else STRAIGHT


def tempi_of(
    attacks: Sequence[float], compound: bool, feel: Feel | None, zero: float | None = None
) -> list[Tempo]:
    """The tempi that fit, best first, none within a tenth of another."""
    some = list(attacks[:_MOST_ATTACKS])
    found = []
    per_minute = SLOWEST
    while per_minute <= FASTEST:
        beat = 60 / per_minute
        for each in (feel,) if feel else (STRAIGHT,) if compound else (STRAIGHT, SWING):
            for place in _FIRST_PLACES if zero is None else (None,):
                start = zero if place is None else some[0] - place * beat
                assert start is not None
                grid = fitted(some, start, beat, each, compound, rounds=3)
                found.append(Tempo(grid.beat, each, grid, _cost(grid, len(some), place)))
        per_minute *= _STEP
    best: list[Tempo] = []
    for tempo in sorted(found, key=lambda each: each.cost):
        if all(abs(log2(tempo.beat / other.beat)) > _APART for other in best):
            best.append(tempo)
    return best


def _cost(grid: Grid, count: int, place: float | None) -> float:
    usual = 0.5 * (log2(60 / grid.beat / _USUAL) / _SPREAD) ** 2
    span = float(grid.places[-1] - grid.places[0])
    off_beat = sum(1 for each in grid.places if each % 1) / count
    begins = 0.4 if place else 0.0
    return grid.cost + _A_BEAT * span / count + 0.3 * usual + 0.3 * off_beat + begins


def zero_of(attacks: Sequence[float], beat: float, feel: Feel, compound: bool) -> float:
    """Where beat 0 lies if the tempo is known and no count-in was heard."""
    tried = []
    for place in _FIRST_PLACES:
        grid = fitted(attacks, attacks[0] - place * beat, beat, feel, compound)
        tried.append((grid.cost + (0.4 if place else 0.0), grid.zero))
    return min(tried)[1]
