"""Harps and positions for some lines, best first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from formsheet.arrange.octaves import MOST_OCTAVES, Arranged, arrange
from formsheet.arrange.sounds import Line
from formsheet.music.harp import Harp
from formsheet.music.key import harp_key
from formsheet.music.tunings import RICHTER, Tuning

#: Cost of an unfamiliar position for each note, in units of `Cost.burden`: first, second and third
#: are common, fourth, fifth and twelfth are taught, the others (`RARE`) are rare. Common practice,
#: no source; the numbers are our own choice.
FAMILIAR = {1: 0.0, 2: 0.0, 3: 0.0, 4: 0.2, 5: 0.2, 12: 0.2}
RARE = 0.5
POSITIONS = range(1, 13)

#: For a blues: second position first, then third, first, and only then the rest. Common practice,
#: no source. A position that lacks more than this share of the notes comes after those that do not;
#: what it lacks is named, and an overblow may give it. Our own choice.
BLUES_ORDER = (2, 3, 1)
BLUES_LACKING = 0.25

#: Keys of harps that are made an octave lower or higher than the usual ones. Common practice, no
#: source.
LOW_KEYS = ("C", "Db", "D", "Eb", "E", "F", "F#")
HIGH_KEYS = ("G", "A")

#: Cost of an octave of distance from a written melody: small, since it has no register of its own
#: on a harp; enough to decide between two equally easy ones.
PAPER_OCTAVE = 0.1
#: Cost of an octave of distance from a lick, which was made for its register: as much as a bend in
#: every fourth note.
LICK_OCTAVE = 0.5


@dataclass(frozen=True)
class Layout:
    """Lines on a harp, in a position."""

    harp: Harp
    position: int
    arranged: Arranged

    @property
    def rank(self) -> tuple[bool, float, float, int]:
        """A sort key, the best first."""
        lacking, weight, strain, position = (*self.arranged.rank[:3], self.position)
        strange = FAMILIAR.get(position, RARE) * self.arranged.notes
        return lacking, weight + strange, strain, position

    @property
    def blues_rank(self) -> tuple[bool, int, bool, float, float, int]:
        """A sort key for a blues, the best first."""
        lacking = self.arranged.missing > BLUES_LACKING * self.arranged.notes
        order = BLUES_ORDER.index(self.position) if self.position in BLUES_ORDER else 9
        return lacking, order, *self.rank


def harps_for(tonic: str, register: str = "", tuning: Tuning = RICHTER) -> list[tuple[int, Harp]]:
    """Each position in which a key can be played, with its harp."""
    return [(each, Harp(harp_key(tonic, each), register, tuning)) for each in POSITIONS]


def in_registers(harps: Iterable[tuple[int, Harp]]) -> list[tuple[int, Harp]]:
    """The harps, and those of them that are made an octave lower or higher."""
    found = []
    for position, harp in harps:
        found.append((position, harp))
        for register, keys in (("low", LOW_KEYS), ("high", HIGH_KEYS)):
            if not harp.register and harp.key in keys:
                found.append((position, harp._replace(register=register)))
    return found


def ranked(
    lines: Sequence[Line],
    harps: Iterable[tuple[int, Harp]],
    *,
    overbends: bool = False,
    octave_cost: float = PAPER_OCTAVE,
    octaves: Iterable[int] = range(-MOST_OCTAVES, MOST_OCTAVES + 1),
    blues: bool = False,
) -> list[Layout]:
    """The lines on each harp, best first; for a blues by the order of its positions."""
    octaves = tuple(octaves)
    found = [
        Layout(
            harp,
            position,
            arrange(lines, harp, overbends=overbends, octave_cost=octave_cost, octaves=octaves),
        )
        for position, harp in harps
    ]
    return sorted(
        found, key=lambda each: (each.blues_rank if blues else each.rank, each.harp.register)
    )
