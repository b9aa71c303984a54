"""Tab that differs from what is played in one note, and whether the alignment names it."""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

from formsheet.hearing.alignment import Alignment, Expected, Kind, align
from formsheet.music.tab import Shape
from tests.hearing.cases import RATE, Take


@dataclass
class Named:
    """How alignments did."""

    planted: int = 0  # differences that a listener is sure of
    sure: int = 0  # of these: named as sure
    perhaps: int = 0  # of these: named, as perhaps
    licks: int = 0  # right ones
    false: int = 0  # of these: with a sure difference where there is none
    false_perhaps: int = 0
    off: list[float] = field(default_factory=list)  # seconds


def expected(take: Take) -> list[Expected]:
    """The lick as written."""
    lick = take.lick
    return [
        Expected(note.tab, lick.seconds(note.start), lick.seconds(note.end)) for note in lick.notes
    ]


def held(take: Take, notes: list[Expected]) -> Alignment:
    """The take held against some tab."""
    lick = take.lick
    return align(take.samples, RATE, lick.harp, notes, tempo=float(lick.tempo), meter=lick.meter)


def count_right(named: Named, take: Take) -> None:
    """A right lick: every sure difference is a false one; and how near its notes are."""
    found = held(take, expected(take))
    named.licks += 1
    named.false += any(each.sure for each in found.differences)
    named.false_perhaps += bool(found.differences)
    first = {note.written: note for note in reversed(take.played)}
    for at, note in enumerate(found.notes):
        named.off.append(note.start - first[at].start - take.before)


def count_planted(named: Named, take: Take) -> None:
    """One note of the tab changed, left out or put in."""
    random = Random(take.lick.seed * 3 + 5)
    notes = expected(take)
    at = random.randrange(1, len(notes))
    kind = random.choice((Kind.OTHER, Kind.LEFT_OUT, Kind.EXTRA))
    pitches = [take.lick.harp.pitches(note.tab) for note in notes]
    beside = {pitches[other] for other in (at - 1, at, at + 1) if other < len(notes)}
    if kind is Kind.EXTRA:  # it is played, and not written
        if pitches[at] in (pitches[at - 1], pitches[at + 1] if at + 1 < len(notes) else ()):
            return  # struck again: never sure
        del notes[at]
    else:
        others = [
            tab
            for tab, midi in take.lick.harp.single_notes()
            if (midi,) not in beside
            and all(abs(midi - each) % 12 for each in pitches[at])
            and tab.shape is Shape.SINGLE
        ]
        other = random.choice(others)
        if kind is Kind.OTHER:
            notes[at] = notes[at]._replace(tab=other)
        else:  # a note is written that is not played: in the second half of another
            old = notes[at]
            if old.end - old.start < 0.3:
                return
            middle = (old.start + old.end) / 2
            notes[at : at + 1] = [old._replace(end=middle), Expected(other, middle, old.end)]
            at += 1
    named.planted += 1
    found = held(take, notes)
    near = [
        each
        for each in found.differences
        if (each.written is not None and abs(each.written - at) <= 0)
        or (kind is Kind.EXTRA and each.kind in (Kind.EXTRA, Kind.OTHER)
            and each.written in (None, at - 1, at))
    ]  # fmt: skip
    named.sure += any(each.sure for each in near)
    named.perhaps += bool(near) and not any(each.sure for each in near)
