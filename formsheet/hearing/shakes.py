"""Shakes: two neighbouring holes in quick turn, heard as one note."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from formsheet.hearing.notes import HeardNote
from formsheet.music.harp import Harp
from formsheet.music.tab import shaken

_FEWEST = 4  # notes in turn
_LONGEST_S = 0.16  # seconds of each of them


def with_shakes(notes: Sequence[HeardNote], harp: Harp) -> list[HeardNote]:
    """The notes with each shake as one, named by its lower hole if that is struck first."""
    found: list[HeardNote] = []
    at = 0
    while at < len(notes):
        stop = at + 1
        while stop < len(notes) and _goes_on(notes, at, stop, harp):
            stop += 1
        if stop - at >= _FEWEST:
            other = notes[at + 1]
            found.append(replace(notes[at], end=notes[stop - 1].end, shake=other.action,
                                 doubts=frozenset(), second=None, dips=()))  # fmt: skip
            at = stop
        else:
            found.append(notes[at])
            at += 1
    return found


def _goes_on(notes: Sequence[HeardNote], first: int, here: int, harp: Harp) -> bool:
    """Whether the note `here` goes on with a shake that began with `first`."""
    before, note = notes[here - 1], notes[here]
    if note.start - before.start > _LONGEST_S or note.start - before.end > 0.05:
        return False
    if here - first == 1:
        return _neighbours(before, note, harp)
    return note.midi == notes[here - 2].midi


def _neighbours(one: HeardNote, other: HeardNote, harp: Harp) -> bool:
    for tab in one.action.tabs:
        turns = shaken(tab)
        if turns and harp.pitches(turns[1]) == other.midi:
            return True
    for tab in other.action.tabs:
        turns = shaken(tab)
        if turns and harp.pitches(turns[1]) == one.midi:
            return True
    return False
