"""A melody: its tones on the grid of the language's values, and what is to be told of them."""

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
    """A note, or notes struck together, in quarters from the first bar line.

    In the pick-up the times are below 0.
    """

    midi: tuple[int, ...]  # low to high
    start: Fraction
    end: Fraction


@dataclass(frozen=True, slots=True)
class Said:
    """Something to be told of the reading: its kind, and the facts of its sentence."""

    kind: str  # a key of report/tab.py: SAID
    facts: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Reading:
    """What stands in a file or on the command line, before it is set on the grid."""

    tones: tuple[Tone, ...]  # from the first bar line; one line, no two sound across each other
    meter: str  # as written: "2/4"
    played: bool = False  # in a performer's time, not a writer's: rounded freely
    title: str = ""
    key: Key | None = None
    signature: int | None = None  # sharps, or flats below 0, where no key is named
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
        """How many bars it fills, one at least, the pick-up not counted."""
        return max(1, -int(-self.tones[-1].end // self.meter.bar))

    def part(self, first: int, last: int) -> Melody:
        """The bars from `first` to `last`, counted from 1; the pick-up goes with bar 1."""
        begin, end = (first - 1) * self.meter.bar, last * self.meter.bar
        tones = tuple(
            Tone(tone.midi, tone.start - begin, min(tone.end, end) - begin)
            for tone in self.tones
            if (tone.start >= begin or first == 1) and tone.start < end
        )
        if not tones:
            raise NotesError(f"bars {first}-{last} have no notes; the melody has {self.bars} bars")
        return replace(self, tones=tones)


#: Meters that the language does not have, and the one in which they are written.
_WRITTEN_IN = {"2/4": "4/4", "2/2": "4/4", "4/8": "4/4", "8/8": "4/4", "3/8": "6/8", "6/4": "3/4"}


def written_meter(text: str) -> tuple[Meter, list[Said]]:
    """The meter in which a melody is written; NotesError if the language has none for it."""
    if text in METERS:
        return METERS[text], []
    if text not in _WRITTEN_IN:
        known = ", ".join([*METERS, *_WRITTEN_IN])
        raise NotesError(f"the meter {text} is not supported; supported are {known}")
    meter = METERS[_WRITTEN_IN[text]]
    return meter, [Said("meter", {"found": text, "meter": meter.text})]
