"""Rhythms that are aligned in columns with the notes of the licks that use them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from formsheet.language import tree as t
from formsheet.language.columns import Columns, columns, fits, under
from formsheet.language.written import GAP, WIDEST, joined


@dataclass(frozen=True)
class RhythmRow:
    """A rhythm of one line, and the columns of the notes of its licks."""

    line: t.RhythmLine
    text: str
    columns: Columns


def rhythm_rows(blocks: Sequence[Sequence[t.Line]]) -> dict[str, RhythmRow]:
    """The rhythms that can be set above their licks, by name."""
    licks: dict[str, list[list[t.AnyMark]]] = {}
    for head, *rest in blocks:
        if isinstance(head, t.LickLine) and head.rhythm:
            licks.setdefault(head.rhythm.text, []).append(notes_of(rest))
    found: dict[str, RhythmRow] = {}
    for together, group in groupby(blocks, lambda block: isinstance(block[0], t.RhythmLine)):
        heads = [block[0] for block in group if len(block) == 1] if together else []
        rows = [head for head in heads if isinstance(head, t.RhythmLine)]
        width = max((len(joined(row.keyword, row.name)) for row in rows), default=0) + GAP
        for row in rows:
            users = [notes for notes in licks.get(row.name.text, []) if fits(row.music, notes)]
            set_out = columns(row.music, users)
            if set_out and width + max(_reach(set_out, user) for user in ([], *users)) <= WIDEST:
                start = joined(row.keyword, row.name).ljust(width)
                moved = replace(set_out, places=tuple(width + at for at in set_out.places))
                found.setdefault(row.name.text, RhythmRow(row, start + set_out.line, moved))
    return found


def _reach(found: Columns, notes: Sequence[t.AnyMark]) -> int:
    return max(len(found.line), len(under(found, 0, notes)))


def notes_of(rest: Sequence[t.Line]) -> list[t.AnyMark]:
    """The marks of the lines of music among some lines."""
    return [mark for line in rest if isinstance(line, t.MusicLine) for mark in line.marks]
