"""The table of the form in the heading: its chords bar by bar, in lines."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.words import accidentals

ROW = 5.4  # mm
RULE = 0.18


def form_table(rows: Sequence[Sequence[str]], cell: float, size: float) -> Canvas:
    """A table of chords: cells `cell` mm wide, type at `size` pt."""
    font = Font("regular", size)
    across = max(map(len, rows))
    canvas = Canvas(cell * across + RULE, ROW * len(rows) + RULE)
    for i, row in enumerate(rows):
        top, half = i * ROW + RULE / 2, RULE / 2
        for j, chords in enumerate(row):
            middle = top + ROW / 2 + font.figure_height / 2
            canvas.text((j + 0.5) * cell + half, middle, accidentals(chords), font, "middle")
        right = len(row) * cell + half
        for x in range(len(row) + 1):
            canvas.line(RULE, (x * cell + half, top), (x * cell + half, top + ROW))
        for y in (top, top + ROW):
            canvas.line(RULE, (0, y), (right + half, y))
    return canvas


def form_words(rows: Sequence[Sequence[str]]) -> str:
    """The table in words for a screen reader: "I7, I7, IV7 V7; ..."."""
    return "; ".join(", ".join(row) for row in rows)
