"""The boxes of the practice log: one to tick for each tempo, and one for the date."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.log import TEMPO, LogColumns
from formsheet.sheet.draw.metrics import Font

HEAD = 5.0  # mm, height of the tempos over the columns
BASE = 1.1  # mm from their base line to the rule
RULE = 0.18
NUMBER = Font("bold", 11)
WORD = Font("regular", 9.5)


def tick_boxes(
    columns: LogColumns, height: float, *, start: float = 0.0, above: float = 0.0
) -> Canvas:
    """The boxes of a row, from the tempo on from which it is practised.

    The first box is that of the last tempo up to `start`. A row shares a rule with the row above,
    as far as that has boxes: from its own tempo, `above`, on. Both are in beats a minute.
    """
    canvas = Canvas(columns.boxes, height)
    edges = list(_edges(columns))
    own, shared = (_skipped(columns, tempo) for tempo in (start, above))
    for x in edges[own:]:
        canvas.line(RULE, (x, 0), (x, height))
    canvas.line(RULE, (edges[own], height - RULE / 2), (columns.boxes, height - RULE / 2))
    if shared > own:
        canvas.line(RULE, (edges[own], RULE / 2), (edges[shared], RULE / 2))
    return canvas


def _skipped(columns: LogColumns, start: float) -> int:
    """The number of boxes that a row has not; all of them where `start` is infinite."""
    if start == float("inf"):
        return len(columns.steps) + 1
    return max(0, sum(float(step) <= start for step in columns.steps) - 1)


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
