"""The syntax tree: what a lesson file says, word for word, each word with its place.

Nothing is looked up or reckoned here; `formsheet/lesson/` does that. What a line holds is a named
tuple, for a file makes hundreds; a block is a plain class, for it grows line by line. Neither is a
data class: to define one takes a millisecond of each start.
"""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from collections.abc import Iterable
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


class TuningBlock:
    """A tuning line and the reeds that follow it, if any."""

    def __init__(self, line: TuningLine, reeds: Iterable[ReedLine] = ()) -> None:
        self.line = line
        self.reeds = list(reeds)


class FormBlock:
    """A form line and the chord lines that follow it, if any."""

    def __init__(
        self, line: FormLine, rows: Iterable[ChordLine] = (), unread: Unread = READ
    ) -> None:
        self.line = line
        self.rows = list(rows)
        self.unread = unread


class RhythmBlock:
    """A rhythm and its music."""

    def __init__(
        self, keyword: Word, name: Word, marks: Iterable[AnyMark] = (), unread: Unread = READ
    ) -> None:
        self.keyword = keyword
        self.name = name
        self.marks = list(marks)
        self.unread = unread


class LickBlock:
    """A lick, its music, pick-ups and tips. `line` is None where its first line is unread."""

    def __init__(
        self,
        name: Word,
        line: LickLine | None,
        marks: Iterable[AnyMark] = (),
        pickups: Iterable[PickupLine] = (),
        tips: Iterable[TipLine] = (),
        unread: Unread = READ,
    ) -> None:
        self.name = name
        self.line = line
        self.marks = list(marks)
        self.pickups = list(pickups)
        self.tips = list(tips)
        self.unread = unread


class PlayBlock:
    """A play line and the lines that place licks."""

    def __init__(
        self,
        line: PlayLine,
        every: Iterable[EveryLine] = (),
        bars: Iterable[BarsLine] = (),
        endings: Iterable[EndingLine] = (),
        unread: Unread = READ,
    ) -> None:
        self.line = line
        self.every = list(every)
        self.bars = list(bars)
        self.endings = list(endings)
        self.unread = unread


class FileTree:
    """A whole lesson or shelf.

    `unread` has the facts, and the words that may have been names, of lines that are unread.
    `newer`: it is for a newer version of the language, and none of it was read.
    """

    def __init__(
        self,
        source: Source,
        facts: Iterable[Fact] = (),
        tunings: Iterable[TuningBlock] = (),
        forms: Iterable[FormBlock] = (),
        uses: Iterable[Use] = (),
        rhythms: Iterable[RhythmBlock] = (),
        licks: Iterable[LickBlock] = (),
        plays: Iterable[PlayBlock] = (),
        unread: Unread = READ,
        newer: bool = False,
    ) -> None:
        self.source = source
        self.facts = list(facts)
        self.tunings = list(tunings)
        self.forms = list(forms)
        self.uses = list(uses)
        self.rhythms = list(rhythms)
        self.licks = list(licks)
        self.plays = list(plays)
        self.unread = unread
        self.newer = newer
