"""The syntax tree: what a lesson file says, word for word, each word with its place.

Nothing is looked up or reckoned here; `formsheet/lesson/` does that. What a line holds is a named
tuple: a file makes hundreds, and a class of them costs a start next to nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import NamedTuple

from formsheet.language.recovery import READ, Unread
from formsheet.source import Source, Span
from formsheet.source import Word as Word  # noqa: PLC0414 - named here as `tree.Word`

# ---- Marks of music ------------------------------------------------------------------------


class Sign(Enum):
    """The marks that are no notes."""

    VALUE = "value"
    REST = "rest"
    HOLD = "hold"
    PLACE = "place"
    BAR = "bar"
    OPEN = "open"
    CLOSE = "close"
    SWING = "swing"
    STRAIGHT = "straight"
    STRAY = "stray"


class Mark(NamedTuple):
    """A mark other than a note: a value, a rest, a bar line, a bracket, ..."""

    sign: Sign
    text: str
    span: Span
    times: int | None = None  # of a closing bracket


class NoteMark(NamedTuple):
    """A note: holes as written, breath "b" or "d", ticks, and what is attached to it."""

    holes: tuple[int, ...]
    breath: str
    over: bool
    ticks: int
    span: Span  # of the holes, the breath and the ticks
    deliberate: bool = False
    technique: Word | None = None
    syllable: Word | None = None


AnyMark = Mark | NoteMark
Marks = tuple[AnyMark, ...]


# ---- Lines ---------------------------------------------------------------------------------


class Fact(NamedTuple):
    """A fact: its keyword, and the words or the text after it."""

    keyword: Word
    words: tuple[Word, ...]

    @property
    def value(self) -> Span:
        """The place of the fact's words."""
        return self.words[0].span.to(self.words[-1].span)


class TuningLine(NamedTuple):
    """`tuning NAME`: which tuning, or the name of one that the next lines define."""

    keyword: Word
    name: Word


class ReedLine(NamedTuple):
    """`blow` or `draw` and the notes of that row."""

    keyword: Word
    notes: tuple[Word, ...]


ChordBars = tuple[tuple[Word, ...], ...]  # bars, each with its chords


def bars_span(bars: ChordBars) -> Span:
    """From the first chord of some bars to the last."""
    return bars[0][0].span.to(bars[-1][-1].span)


class FormLine(NamedTuple):
    """`form NAME`, perhaps with an ending such as `ending I IV | I V`."""

    keyword: Word
    name: Word | None
    ending: ChordBars = ()  # none: as the form goes


class ChordLine(NamedTuple):
    """Bars of an own form."""

    bars: ChordBars
    span: Span


class UseItem(NamedTuple):
    """A lick taken from a shelf, perhaps under another name."""

    name: Word
    alias: Word | None


class Use(NamedTuple):
    """`use NAME, NAME as NAME from SHELF`."""

    keyword: Word
    items: tuple[UseItem, ...]
    shelf: Word


class RhythmLine(NamedTuple):
    """`rhythm NAME`, perhaps with the rhythm on the same line."""

    keyword: Word
    name: Word
    music: Marks


AskedBar = tuple[tuple[Word, ...], ...]  # chords that share the bar, each with its alternatives


class LickLine(NamedTuple):
    """`lick NAME "Title" on CHORDS in RHYTHM`, or `turnaround ...`."""

    keyword: Word
    name: Word
    title: Word | None
    on: tuple[AskedBar, ...]
    on_span: Span
    rhythm: Word | None


class MusicLine(NamedTuple):
    """A line of music."""

    marks: Marks
    span: Span


class PickupLine(NamedTuple):
    """`pickup` and its music; `pickup once` is played only where the tune begins with its lick."""

    keyword: Word
    marks: Marks
    once: bool


class TipLine(NamedTuple):
    """`tip` and its text."""

    keyword: Word
    text: Word


class PlayLine(NamedTuple):
    """`play "Title" x2`."""

    keyword: Word
    title: Word | None
    times: Word | None


class Placed(NamedTuple):
    """A lick's name (or `rest`) with an optional count."""

    name: Word
    rest: bool
    times: Word | None

    @property
    def span(self) -> Span:
        """The name and its count."""
        return self.name.span.to(self.times.span) if self.times else self.name.span


class EveryLine(NamedTuple):
    """`every I PLACED`."""

    keyword: Word
    on: AskedBar
    on_span: Span
    placed: tuple[Placed, ...]


class BarsLine(NamedTuple):
    """`bars 1-4 PLACED, PLACED`, perhaps only the last time."""

    keyword: Word
    range: Word
    placed: tuple[Placed, ...]
    last_time: bool


class EndingLine(NamedTuple):
    """`ending I IV | I V` in a play: the last bars of its choruses, perhaps only the last time."""

    keyword: Word
    bars: ChordBars
    last_time: bool


class UnreadLine(NamedTuple):
    """A line that could not be read: only its first words are known (see `recovery.py`)."""

    words: tuple[Word, ...]


Line = (
    Fact | TuningLine | ReedLine | FormLine | ChordLine | Use | RhythmLine | LickLine | MusicLine
    | PickupLine | TipLine | PlayLine | EveryLine | BarsLine | EndingLine | UnreadLine
)  # fmt: skip


# ---- Blocks --------------------------------------------------------------------------------


@dataclass(slots=True)
class TuningBlock:
    """A tuning line and the reeds that follow it, if any."""

    line: TuningLine
    reeds: list[ReedLine] = field(default_factory=list)


@dataclass(slots=True)
class FormBlock:
    """A form line and the chord lines that follow it, if any."""

    line: FormLine
    rows: list[ChordLine] = field(default_factory=list)
    unread: Unread = READ


@dataclass(slots=True)
class RhythmBlock:
    """A rhythm and its music."""

    keyword: Word
    name: Word
    marks: list[AnyMark] = field(default_factory=list)
    unread: Unread = READ


@dataclass(slots=True)
class LickBlock:
    """A lick, its music, pick-ups and tips. `line` is None where its first line is unread."""

    name: Word
    line: LickLine | None
    marks: list[AnyMark] = field(default_factory=list)
    pickups: list[PickupLine] = field(default_factory=list)
    tips: list[TipLine] = field(default_factory=list)
    unread: Unread = READ


@dataclass(slots=True)
class PlayBlock:
    """A play line and the lines that place licks."""

    line: PlayLine
    every: list[EveryLine] = field(default_factory=list)
    bars: list[BarsLine] = field(default_factory=list)
    endings: list[EndingLine] = field(default_factory=list)
    unread: Unread = READ


@dataclass(slots=True)
class FileTree:
    """A whole lesson or shelf."""

    source: Source
    facts: list[Fact] = field(default_factory=list)
    tunings: list[TuningBlock] = field(default_factory=list)
    forms: list[FormBlock] = field(default_factory=list)
    uses: list[Use] = field(default_factory=list)
    rhythms: list[RhythmBlock] = field(default_factory=list)
    licks: list[LickBlock] = field(default_factory=list)
    plays: list[PlayBlock] = field(default_factory=list)
    unread: Unread = READ  # facts, and words that may have been names, of lines that are unread
    newer: bool = False  # for a newer version of the language: none of it was read
