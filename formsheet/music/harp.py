"""The harp: the pitch of each breath on each hole; bends and overbends are derived.

Bends lie between the two notes of a hole, overbends outside them: Bahnson, Antaki, Beery,
"Acoustical and physical dynamics of the diatonic harmonica", JASA 103 (1998) 2134,
doi 10.1121/1.421359. Registers: Wikipedia, "Richter-tuned harmonica".
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from formsheet.music import pitch
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES, RICHTER, Tuning

#: The keys stamped on harps; enharmonic names are the same harp.
HARP_KEYS = ("C", "Db", "C#", "D", "Eb", "D#", "E", "F", "F#", "Gb", "G", "Ab", "G#", "A", "Bb",
             "A#", "B")  # fmt: skip

_MIDDLE_C = 60
# The middle octave of harps runs from G below middle C to F# above it.
_LOWEST_KEY = pitch.pitch_class("G")
REGISTERS = {"low": -12, "": 0, "high": 12}


class _Stamped(NamedTuple):
    """The fields of a `Harp`."""

    key: str  # "C", "Bb"
    register: str = ""  # "low", "" or "high"
    tuning: Tuning = RICHTER


class Harp(_Stamped):
    """A harp in a key and register, with a tuning."""

    @property
    def name(self) -> str:
        """The harp as players call it: "C", "low F"."""
        return f"{self.register} {self.key}".strip()

    @property
    def other_tuning(self) -> str:
        """The name of its tuning; "" for the usual Richter tuning."""
        return "" if self.tuning.name == RICHTER.name else self.tuning.name

    @property
    def tuned(self) -> str:
        """The tuning as added to the name of the harp: ", country tuning"; "" for Richter."""
        return f", {self.other_tuning} tuning" if self.other_tuning else ""

    @cached_property
    def lowest(self) -> int:
        """MIDI number of hole 1 blow."""
        above_g = (pitch.pitch_class(self.key) - _LOWEST_KEY) % 12
        return _MIDDLE_C + _LOWEST_KEY - 12 + above_g + REGISTERS[self.register]

    def reed(self, hole: int, breath: Breath) -> int:
        """MIDI number of the natural note of a hole, 1 to 10."""
        row = self.tuning.blow if breath is Breath.BLOW else self.tuning.draw
        return self.lowest + row[hole - 1]

    def deepest_bend(self, hole: int, breath: Breath) -> int:
        """The deepest bend in half steps: to a semitone above the hole's other reed; 0: none."""
        return max(0, self.reed(hole, breath) - self.reed(hole, breath.other) - 1)

    def bends(self, tab: Tab) -> bool:
        """Whether a single note can be bent down at all, even by less than a half step.

        The higher reed of a hole can, and so can an overbend (common practice, no source).
        """
        if tab.overbend or len(tab.holes) > 1:
            return tab.overbend
        hole, breath = tab.holes[0], tab.breath
        return self.reed(hole, breath) > self.reed(hole, breath.other)

    def overbends(self, hole: int, breath: Breath) -> bool:
        """Whether a hole overbends on this breath: on that of its lower reed (see above)."""
        return self.reed(hole, breath) < self.reed(hole, breath.other)

    def can_play(self, tab: Tab) -> bool:
        """Whether a single note exists on this harp."""
        hole = tab.holes[0]
        if tab.overbend:
            return self.overbends(hole, tab.breath) and not tab.bend
        return tab.bend <= self.deepest_bend(hole, tab.breath)

    def pitches(self, tab: Tab) -> tuple[int, ...]:
        """The MIDI numbers that sound, low to high.

        For a bend or overbend that the harp does not have, the pitch that it would have, so that
        one mistake does not hide the next; see `can_play`.
        """
        if tab.overbend:
            return tuple(self.reed(hole, tab.breath.other) + 1 for hole in tab.holes)
        return tuple(sorted(self.reed(hole, tab.breath) - tab.bend for hole in tab.holes))

    def single_notes(self, overbends: bool = False) -> Iterator[tuple[Tab, int]]:
        """Every single note of this harp with its MIDI number: natural ones, then bends by depth.

        Overbends are included only on request.
        """
        for hole in range(1, HOLES + 1):
            for breath in Breath:
                for bend in range(self.deepest_bend(hole, breath) + 1):
                    yield Tab((hole,), breath, bend), self.reed(hole, breath) - bend
                if overbends and self.overbends(hole, breath):
                    tab = Tab((hole,), breath, overbend=True)
                    yield tab, self.pitches(tab)[0]
