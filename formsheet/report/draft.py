"""A first draft as a lesson file, with a comment above each lick that was recast."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from formsheet.language import tree as t
from formsheet.language.made import word
from formsheet.language.writer import Row, rows_text
from formsheet.lesson.model import Lick
from formsheet.lesson.writing import play_lines
from formsheet.lesson.writing_facts import fact_lines
from formsheet.recast.draft import Draft, Part
from formsheet.recast.text import lines_in_rhythm, same_rhythm
from formsheet.report.recast import comments, said


@dataclass(frozen=True)
class FromShelf:
    """A turnaround that the draft takes from a shelf."""

    name: str
    shelf: str


def draft_text(
    draft: Draft, lick: Lick, rhythm: t.RhythmBlock | None, shelved: FromShelf | None
) -> str:
    """The text of the lesson file; licks that keep the rhythm of the original are written in it."""
    rows = [Row(line) for line in fact_lines(draft.facts)]
    if shelved:
        item = t.UseItem(word(shelved.name), None)
        rows.append(Row(t.Use(word("use"), (item,), word(shelved.shelf))))
    if rhythm:
        rows.append(Row(t.RhythmLine(rhythm.keyword, rhythm.name, tuple(rhythm.marks))))
    for part in draft.parts:
        if shelved and part.lick.name == shelved.name:
            continue
        rows += [Row(comment=line) for line in _comments(part, draft)]
        kept = rhythm if rhythm and same_rhythm(part.lick, lick) else None
        lines = lines_in_rhythm(part.lick, kept.name.text if kept else None)
        rows += [Row(line) for line in lines]
    rows += [Row(line) for play in draft.plays for line in play_lines(play)]
    return rows_text(rows)


def _comments(part: Part, draft: Draft) -> Iterator[str]:
    if part.tried:
        yield from comments([*said(part.tried, draft.lesson), *_may_stay(part)])


def _may_stay(part: Part) -> Iterator[str]:
    if part.as_it_is:
        placement = part.as_it_is.played.placement
        share = round(placement.score * 100)
        yield f"{part.as_it_is.lick.name} may stay as it is here: {placement.verdict}, fit {share}%"
