"""The harp: which pitch every breath on every hole sounds, bends and overbends derived.

Bends lie between the two notes of a hole, overbends outside them: Bahnson, Antaki, Beery,
"Acoustical and physical dynamics of the diatonic harmonica", JASA 103 (1998) 2134,
doi 10.1121/1.421359. Registers: Wikipedia, "Richter-tuned harmonica".
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

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


@dataclass(frozen=True)
class Harp:
    """A harp in a key and register, with a tuning."""

    key: str  # "C", "Bb"
    register: str = ""  # "low", "" or "high"
    tuning: Tuning = RICHTER

    @property
    def name(self) -> str:
        """The harp as its owner calls it: "C", "low F"."""
        return f"{self.register} {self.key}".strip()

    @property
    def other_tuning(self) -> str:
        """The name of its tuning; "" where that is Richter's, which goes without saying."""
        return "" if self.tuning.name == RICHTER.name else self.tuning.name

    @property
    def tuned(self) -> str:
        """What follows where the harp is named: ", country tuning"; "" of Richter's."""
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
        """Half steps that this breath bends down: to a semitone above the hole's other reed."""
        return max(0, self.reed(hole, breath) - self.reed(hole, breath.other) - 1)

    def bends(self, tab: Tab) -> bool:
        """Whether a single note bends down at all, if only by the shade between near reeds.

        The higher reed of a hole does, and an overbend, which is bent already (common practice).
        """
        if tab.overbend or len(tab.holes) > 1:
            return tab.overbend
        hole, breath = tab.holes[0], tab.breath
        return self.reed(hole, breath) > self.reed(hole, breath.other)

    def overbends(self, hole: int, breath: Breath) -> bool:
        """Whether this breath overbends: the breath of the lower reed does (common practice)."""
        return self.reed(hole, breath) < self.reed(hole, breath.other)

    def can_play(self, tab: Tab) -> bool:
        """Whether a single note exists on this harp."""
        hole = tab.holes[0]
        if tab.overbend:
            return self.overbends(hole, tab.breath) and not tab.bend
        return tab.bend <= self.deepest_bend(hole, tab.breath)

    def pitches(self, tab: Tab) -> tuple[int, ...]:
        """MIDI numbers that sound, low to high.

        A bend or overbend that the harp lacks is reckoned as if it were there, so that one
        mistake does not hide the next; ask `can_play`.
        """
        if tab.overbend:
            return tuple(self.reed(hole, tab.breath.other) + 1 for hole in tab.holes)
        return tuple(sorted(self.reed(hole, tab.breath) - tab.bend for hole in tab.holes))

    def single_notes(self, overbends: bool = False) -> Iterator[tuple[Tab, int]]:
        """Every single note of this harp with its MIDI number: natural, then bends by depth."""
        for hole in range(1, HOLES + 1):
            for breath in Breath:
                for bend in range(self.deepest_bend(hole, breath) + 1):
                    yield Tab((hole,), breath, bend), self.reed(hole, breath) - bend
                if overbends and self.overbends(hole, breath):
                    tab = Tab((hole,), breath, overbend=True)
                    yield tab, self.pitches(tab)[0]
