"""A melody: its tones on the grid of the language's note values, and remarks on the reading."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from formsheet.music.key import Key
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import STRAIGHT, Feel


class NotesError(Exception):
    """A melody that cannot be read; the message says why."""


@dataclass(frozen=True, slots=True)
class Tone:
    """A note, or notes struck together. Times are in quarters from the first bar line.

    In the pick-up they are negative.
    """

    midi: tuple[int, ...]  # low to high
    start: Fraction
    end: Fraction


@dataclass(frozen=True, slots=True)
class Said:
    """A remark on the reading: its kind, and the values for its text."""

    kind: str  # a key of `SAID` in report/tab.py
    facts: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Reading:
    """The content of a file or of the command line, before quantising."""

    tones: tuple[Tone, ...]  # from the first bar line; a single line, without overlaps
    meter: str  # as written: "2/4"
    played: bool = False  # recorded from a performance, so rounding may be coarse
    title: str = ""
    key: Key | None = None
    signature: int | None = None  # sharps (flats negative), if the file names no key
    tempo: Fraction | None = None  # quarters a minute
    said: tuple[Said, ...] = ()


@dataclass(frozen=True)
class Melody:
    """A melody that can be written in the language."""

    tones: tuple[Tone, ...]
    meter: Meter
    feel: Feel = STRAIGHT
    title: str = ""
    key: Key | None = None
    signature: int | None = None
    tempo: Fraction | None = None  # beats of the meter a minute
    said: tuple[Said, ...] = ()

    @property
    def bars(self) -> int:
        """The number of bars, at least 1, without the pick-up."""
        return max(1, -int(-self.tones[-1].end // self.meter.bar))

    def part(self, first: int, last: int) -> Melody:
        """The bars `first` to `last`, counted from 1; the pick-up belongs to bar 1.

        NotesError if nothing sounds in them.
        """
        begin, end = (first - 1) * self.meter.bar, last * self.meter.bar
        tones = tuple(
            Tone(tone.midi, tone.start - begin, min(tone.end, end) - begin)
            for tone in self.tones
            if (tone.start >= begin or first == 1) and tone.start < end
        )
        if not tones:
            raise NotesError(f"nothing sounds in bars {first}-{last}; there are {self.bars}")
        return replace(self, tones=tones)


#: Meters that the language does not have, and the meter used instead.
_WRITTEN_IN = {"2/4": "4/4", "2/2": "4/4", "4/8": "4/4", "8/8": "4/4", "3/8": "6/8", "6/4": "3/4"}


def written_meter(text: str) -> tuple[Meter, list[Said]]:
    """The meter in which to write a melody; NotesError if the language has none for it."""
    if text in METERS:
        return METERS[text], []
    if text not in _WRITTEN_IN:
        known = ", ".join([*METERS, *_WRITTEN_IN])
        raise NotesError(f"a lesson cannot be in {text}; it can read {known}")
    meter = METERS[_WRITTEN_IN[text]]
    return meter, [Said("meter", {"found": text, "meter": meter.text})]
