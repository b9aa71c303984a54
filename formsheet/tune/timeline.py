"""The assembled tune as data: choruses, bars, written marks and sounding notes."""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from collections.abc import Iterable
from fractions import Fraction
from itertools import count
from typing import NamedTuple

from formsheet.lesson.model import Kind, Lesson, Lick, LickMark
from formsheet.music.chord import Chord
from formsheet.music.form import ChordPlaces, chord_at
from formsheet.music.tab import Tab
from formsheet.source import Span


class Slot(NamedTuple):
    """What is played in one bar: a bar of a lick, or nothing (a rest)."""

    lick: Lick | None
    bar_in_lick: int  # from 0
    round: int  # which time round, from 1
    rounds: int
    span: Span  # where the lesson places it


class PlayedMark(NamedTuple):
    """A written mark at its place in a bar of the tune.

    `number` is its identity: its note, its fit and its names are found by it, so that a copy of a
    mark counts as the same mark.
    """

    mark: LickMark
    onset: Fraction  # from its bar line, in quarters
    pickup: bool = False  # belongs to the pick-up of the next bar's lick
    once: bool = False  # of a pick-up: it is played only here, where the tune begins
    place: int | None = None  # in its lick's bar or pick-up, from 0; None: a rest of the tune's own
    number: int | None = None  # in the tune, from 0, in order of time; None: not in a tune

    @property
    def end(self) -> Fraction:
        """Where it ends, in quarters from the bar line."""
        return self.onset + self.mark.value.length

    @property
    def sounds(self) -> bool:
        """Whether a note sounds, struck here or held."""
        return self.mark.kind is not Kind.REST


class Bar(NamedTuple):
    """One bar of the tune."""

    number: int  # in the chorus, from 1; 0 is the pick-up bar before the tune
    chorus: int  # from 1; 0 for the pick-up bar
    start: Fraction  # in quarters from the first bar line
    chords: ChordPlaces  # in quarters
    slot: Slot
    marks: tuple[PlayedMark, ...]

    @property
    def lick(self) -> Lick | None:
        """The lick that is played, or None where the bar rests."""
        return self.slot.lick

    def chord_at(self, onset: Fraction) -> Chord:
        """The chord that sounds at a place in the bar."""
        return chord_at(self.chords, onset)


def numbered(bars: Iterable[Bar]) -> tuple[Bar, ...]:
    """The bars with all marks numbered consecutively from 0."""
    number = count()
    return tuple(
        bar._replace(
            marks=tuple(
                PlayedMark(mark.mark, mark.onset, mark.pickup, mark.once, mark.place, next(number))
                for mark in bar.marks
            )
        )
        for bar in bars
    )


def same_lick(one: Bar, other: Bar) -> bool:
    """Whether two bars of a tune play the same lick, or both rest."""
    first, second = one.slot.lick, other.slot.lick
    if first is None or second is None:
        return first is second
    return first.name == second.name


def goes_on(before: Bar, bar: Bar) -> bool:
    """Whether a bar continues the lick of the bar before it, in the same round.

    A later bar of a lick need not: a last time may have something else in the bar before.
    """
    return same_lick(before, bar) and before.slot.bar_in_lick + 1 == bar.slot.bar_in_lick


class Note(NamedTuple):
    """One sounding note, its holds joined."""

    bar: int  # index of the bar in which it starts
    tab: Tab
    onset: Fraction  # from its bar line, in quarters
    duration: Fraction  # in quarters
    start: Fraction  # in quarters from the first bar line
    end: Fraction
    start_s: float  # seconds from the first bar line, swing included
    end_s: float
    midi: tuple[int, ...]  # low to high
    played: PlayedMark  # the mark that strikes it

    @property
    def mark(self) -> LickMark:
        """The written mark that strikes it."""
        return self.played.mark

    @property
    def home(self) -> int:
        """Index of the bar whose lick it belongs to: a pick-up belongs to the next bar."""
        return self.bar + self.played.pickup


class Chorus(NamedTuple):
    """Once through the form."""

    number: int  # from 1
    title: str  # as the play line gives it, or ""
    pass_number: int  # of its play line, from 1
    passes: int
    bars: tuple[int, ...]  # indices


class Tune(NamedTuple):
    """The whole tune, in order of time."""

    lesson: Lesson
    choruses: tuple[Chorus, ...]
    bars: tuple[Bar, ...]
    notes: tuple[Note, ...]

    @property
    def pickup(self) -> Bar | None:
        """Bar 0, where the tune begins with a pick-up."""
        return None if self.bars[0].number else self.bars[0]

    @property
    def pickup_once(self) -> bool:
        """Whether the tune begins with a pick-up that is not played again."""
        return self.pickup is not None and any(played.once for played in self.pickup.marks)

    @property
    def count_in(self) -> int:
        """Bars counted before the tune: one at least where it begins with a pick-up."""
        return max(self.lesson.facts.count_in, 1 if self.pickup else 0)

    def lick_of(self, note: Note) -> str:
        """The name of a note's lick: for a pick-up note, of the lick that follows."""
        lick = self.bars[note.home].lick
        return lick.name if lick else ""

    @property
    def marks(self) -> tuple[PlayedMark, ...]:
        """The marks of all bars: `marks[n]` has the number `n`."""
        return tuple(mark for bar in self.bars for mark in bar.marks)
