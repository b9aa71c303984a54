"""A melody: its tones on the grid of the language's note values, and remarks on the reading."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any, NamedTuple

from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import STRAIGHT, Feel
from formsheet.music.tab import Tab

#: Limits of what is read, before any work is done: a melody for a lesson has some dozen bars and a
#: few hundred notes. Our own choice; at all of them the slowest part takes some seconds.
MOST_BARS = 800
MOST_NOTES = 2000


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
    tab: Tab | None = None  # how it is played, where the source says so
    technique: str = ""
    syllable: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """A remark on the reading: its kind, and the values for its text."""

    kind: str  # a key of `SAID` in report/said.py
    facts: Mapping[str, Any] = field(default_factory=dict)


class Symbol(NamedTuple):
    """A chord symbol: C#m7 is "C#", minor, "7"; qualities are those of `music.chord`."""

    root: str
    minor: bool
    quality: str


class WrittenBar(NamedTuple):
    """A bar as its source writes it, in quarters from the beginning of the source."""

    number: str  # as printed
    start: Fraction
    length: Fraction  # of what is in it: a pick-up or half a bar is shorter than its meter
    meter: str
    implicit: bool = False  # not counted: a pick-up, or the second half of a bar


class Section(NamedTuple):
    """A place where a source says that a lick begins: the sign printed there, and a title."""

    start: Fraction
    sign: str
    title: str


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
    bars: tuple[WrittenBar, ...] = ()  # as written; none: they follow from the meter
    chords: tuple[tuple[Fraction, Symbol], ...] = ()
    feels: tuple[tuple[Fraction, Feel], ...] = ()
    sections: tuple[Section, ...] = ()
    harp: Harp | None = None  # of a source that has its tab
    position: int | None = None
    form: str = ""  # the name of the form, where the source has it


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
    chords: tuple[tuple[Fraction, Symbol], ...] = ()  # with their places in quarters, in order
    feels: tuple[tuple[Fraction, Feel], ...] = ()  # changes of feel after the start
    sections: tuple[Section, ...] = ()
    harp: Harp | None = None
    position: int | None = None
    form: str = ""

    @property
    def bars(self) -> int:
        """The number of bars, at least 1, without the pick-up."""
        return max(1, -int(-self.tones[-1].end // self.meter.bar))

    @property
    def tabbed(self) -> bool:
        """Whether the source says of every note how it is played, and on which harp."""
        return self.harp is not None and all(tone.tab for tone in self.tones)

    def part(self, first: int, last: int) -> Melody:
        """The bars `first` to `last`, counted from 1; the pick-up belongs to bar 1.

        NotesError if nothing sounds in them.
        """
        begin, end = (first - 1) * self.meter.bar, last * self.meter.bar
        tones = tuple(
            replace(tone, start=tone.start - begin, end=min(tone.end, end) - begin)
            for tone in self.tones
            if (tone.start >= begin or first == 1) and tone.start < end
        )
        if not tones:
            raise NotesError(f"bars {first}-{last} have no notes; the melody has {self.bars} bars")
        return replace(self, tones=tones)


#: Meters that the language does not have, and the meter used instead.
_WRITTEN_IN = {"2/4": "4/4", "2/2": "4/4", "4/8": "4/4", "8/8": "4/4", "3/8": "6/8", "6/4": "3/4",
               "9/8": "3/4", "4/2": "4/4", "3/2": "3/4", "4/1": "4/4", "3/1": "3/4"}  # fmt: skip
#: Meters that are written in another with other values: 9/8 in triplets of 3/4, halves as quarters.
_SCALED = {"9/8": Fraction(2, 3), "4/2": Fraction(1, 2), "3/2": Fraction(1, 2),
           "4/1": Fraction(1, 4), "3/1": Fraction(1, 4)}  # fmt: skip


def scale_of(meter: str) -> Fraction:
    """By how much the lengths of a meter are multiplied when it is written in ours."""
    return _SCALED.get(meter, Fraction(1))


def can_be_written(meter: str) -> bool:
    """Whether the language has the meter, or one in which it can be written."""
    return meter in METERS or meter in _WRITTEN_IN


def written_meter(text: str) -> tuple[Meter, list[Said]]:
    """The meter in which to write a melody; NotesError if the language has none for it."""
    if text in METERS:
        return METERS[text], []
    if text not in _WRITTEN_IN:
        known = ", ".join([*METERS, *_WRITTEN_IN])
        raise NotesError(f"a lesson cannot be in {text}; it can read {known}")
    meter = METERS[_WRITTEN_IN[text]]
    return meter, [Said("meter", {"found": text, "meter": meter.text})]
