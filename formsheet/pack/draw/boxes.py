"""The boxes of the practice log: one to tick for each tempo, and one for the date."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.pack.draw.canvas import Canvas
from formsheet.pack.draw.log import TEMPO, LogColumns
from formsheet.pack.draw.metrics import Font

HEAD = 5.0  # mm, height of the tempos over the columns
BASE = 1.1  # mm from their base line to the rule
RULE = 0.18
NUMBER = Font("bold", 11)
WORD = Font("regular", 9.5)


def tick_boxes(columns: LogColumns, height: float, *, first: bool = False) -> Canvas:
    """The boxes of a row; it shares a rule with the row above unless it is the `first`."""
    canvas = Canvas(columns.boxes, height)
    for x in _edges(columns):
        canvas.line(RULE, (x, 0), (x, height))
    for y in [height - RULE / 2, *([RULE / 2] if first else [])]:
        canvas.line(RULE, (0, y), (columns.boxes, y))
    return canvas


def box_heads(columns: LogColumns) -> Canvas:
    """The tempos over the columns."""
    canvas = Canvas(columns.boxes, HEAD)
    base = HEAD - BASE
    for i, tempo in enumerate(columns.steps):
        canvas.text((i + 0.5) * TEMPO, base, tempo, NUMBER, "middle")
    canvas.text(columns.boxes - columns.date / 2, base, "date", WORD, "middle")
    return canvas


def _edges(columns: LogColumns) -> Iterator[float]:
    """The x of the upright rules; the outer ones are kept within the drawing."""
    yield RULE / 2
    for i in range(1, len(columns.steps) + 1):
        yield i * TEMPO
    yield columns.boxes - RULE / 2
