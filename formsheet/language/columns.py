"""Notes under their rhythm: the columns in which a rhythm and the licks in it are set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.language.tree import AnyMark, Mark, NoteMark, Sign
from formsheet.language.written import gap, mark_text


@dataclass(frozen=True)
class Columns:
    """The columns of the marks of a rhythm, and of its places for notes."""

    line: str  # the rhythm itself
    places: tuple[int, ...]  # columns of the notes, from the start of `line`


def columns(rhythm: Sequence[AnyMark], licks: Sequence[Sequence[AnyMark]]) -> Columns | None:
    """Columns wide enough for the notes of all licks; None if the rhythm is not a plain row."""
    signs = [mark.sign if isinstance(mark, Mark) else None for mark in rhythm]
    if not signs or {Sign.OPEN, Sign.CLOSE, None} & set(signs):
        return None
    notes = [[mark_text(note) for note in lick] for lick in licks]
    line = ""
    places: list[int] = []
    wide = -1  # how far the notes under the mark before reach
    for before, mark in zip([None, *rhythm], rhythm, strict=False):
        if before:
            line = (line + gap(before, mark)).ljust(wide + (2 if _is_bar(mark) else 1))
        if mark_text(mark) == "x":
            at = len(places)
            wide = len(line) + max((len(row[at]) for row in notes if at < len(row)), default=0)
            places.append(len(line))
        line += mark_text(mark)
    return Columns(line, tuple(places))


def _is_bar(mark: AnyMark) -> bool:
    return isinstance(mark, Mark) and mark.sign is Sign.BAR


def fits(rhythm: Sequence[AnyMark], notes: Sequence[AnyMark]) -> bool:
    """Whether marks are notes only, as many as the rhythm has places."""
    places = sum(isinstance(mark, Mark) and mark.sign is Sign.PLACE for mark in rhythm)
    return len(notes) == places and all(isinstance(mark, NoteMark) for mark in notes)


def under(found: Columns, first: int, notes: Sequence[AnyMark]) -> str:
    """A line of notes, the first of them at the place numbered `first`, from 0."""
    line = ""
    for at, note in zip(found.places[first:], notes, strict=False):
        line = line.ljust(at) + mark_text(note)
    return line
