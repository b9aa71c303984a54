"""The data of a lesson: facts, licks bar by bar, and the choruses to play."""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from types import MappingProxyType
from typing import Any, NamedTuple

from formsheet.language.recovery import READ, Unread
from formsheet.music.chord import Chord
from formsheet.music.form import Bars, Form, with_ending
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.rhythm import METERS, Meter, Value
from formsheet.music.swing import STRAIGHT, Feel
from formsheet.music.tab import Tab
from formsheet.source import Span
from formsheet.vocabulary.facts import Level, Link

#: The highest count of a lick in one place.
MOST_ROUNDS = 64


class Kind(Enum):
    """What a written mark is."""

    NOTE = "note"
    HOLD = "hold"
    REST = "rest"


class LickMark(NamedTuple):
    """One written mark of a lick, at its place in the bar."""

    kind: Kind
    onset: Fraction  # in quarters from the bar line; of a pick-up: from its first mark
    value: Value
    span: Span
    tab: Tab | None = None  # of a note
    deliberate: bool = False
    technique: str = ""
    syllable: str = ""
    swings: bool | None = None  # a swing or straight mark in force; None: as the lesson

    @property
    def end(self) -> Fraction:
        """Where the mark ends, in quarters from the bar line."""
        return self.onset + self.value.length


LickBar = tuple[LickMark, ...]
AskedChords = tuple[Chord, ...]  # alternatives
AskedBar = tuple[AskedChords, ...]  # one entry, or two that share the bar


class Lick(NamedTuple):
    """A lick or a turnaround, bar by bar."""

    name: str
    title: str
    turnaround: bool
    on: tuple[AskedBar, ...]  # one entry a bar
    bars: tuple[LickBar, ...]
    span: Span  # of its name
    on_span: Span
    pickup: LickBar = ()
    pickup_once: bool = False  # the pick-up is played only where the tune begins with this lick
    tips: tuple[str, ...] = ()

    @property
    def pickup_length(self) -> Fraction:
        """How long the pick-up is, in quarters."""
        return self.pickup[-1].end if self.pickup else Fraction(0)


def default_title(name: str) -> str:
    """The title of a lick without one."""
    return name.replace("-", " ").capitalize()


class Shelved(NamedTuple):
    """A lick on a shelf of the lesson that the lesson does not use."""

    lick: Lick
    shelf: str


class Placed(NamedTuple):
    """The name of a lick, or a rest, and its count; None: repeated until its bars are full."""

    name: str
    rest: bool
    times: int | None
    span: Span


class Every(NamedTuple):
    """The default for every bar on a chord."""

    on: AskedBar
    placed: tuple[Placed, ...]
    span: Span


class BarsPlaced(NamedTuple):
    """What is played in a range of bars, both ends counted from 1."""

    first: int
    last: int
    placed: tuple[Placed, ...]
    last_time: bool
    span: Span


class Play(NamedTuple):
    """A chorus and how often it is played."""

    title: str
    times: int
    every: tuple[Every, ...]
    bars: tuple[BarsPlaced, ...]
    span: Span
    unread: Unread = READ  # of its lines, of what they place: its bars are not all known
    ending: Bars = ()  # in place of the form's last bars, as written; none: as the form has them
    last_ending: Bars = ()  # in place of the last ones the last time; none: as every time
    last_ending_span: Span | None = None  # of its chords

    def form(self, form: Form, last_time: bool) -> Form:
        """The form of a chorus of this play, with its ending."""
        form = with_ending(form, self.ending)
        return with_ending(form, self.last_ending) if last_time else form


_HARP_IN_C = Harp("C")
_NONE: Mapping[str, Any] = MappingProxyType({})


class Facts(NamedTuple):
    """The facts of a file, with their defaults. `places` has the span of each that is written."""

    language: str = ""  # the version of the language that the file names
    title: str = ""
    teacher: str = ""
    rights: str = ""
    date: str = ""
    says: tuple[str, ...] = ()
    links: tuple[Link, ...] = ()
    harp: Harp = _HARP_IN_C
    position: int = 2
    form: Form | None = None
    meter: Meter = METERS["4/4"]
    tempo: Fraction = Fraction(100)  # beats a minute
    learn: Fraction | None = None  # None: worked out from the hardest move
    feel: Feel = STRAIGHT
    count_in: int = 1  # bars
    level: Level = Level.IMPROVER
    places: Mapping[str, Span] = _NONE
    unread: Unread = READ  # the facts whose values are not known

    def known(self, *facts: str) -> bool:
        """Whether the values of these facts are known, as written or by default."""
        return self.unread.facts.isdisjoint(facts)


class Lesson(NamedTuple):
    """A whole lesson."""

    facts: Facts
    form: Form  # without bars where it is missing or unread
    key: Key
    licks: dict[str, Lick]
    plays: tuple[Play, ...]
    end: Span  # the end of the file, for what is missing
    shelved: tuple[Shelved, ...] = ()
    unread: Mapping[str, Unread] = _NONE  # its own licks that are unread

    @property
    def chords(self) -> tuple[Chord, ...]:
        """The different chords of the form, and after them those of the plays' own endings."""
        forms = [play.form(self.form, last) for play in self.plays for last in (False, True)]
        return tuple(dict.fromkeys(chord for form in (self.form, *forms) for chord in form.chords))
