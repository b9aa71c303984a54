"""The count row: strong beats bold, beats regular, other counts smaller."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.rows import LIGHT
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.view import Count

SIZES = (12.0, 11.0, 10.0, 9.0, 8.0, 7.0)
GAP = 0.5  # mm


def _font(count: Count, size: float) -> Font:
    if count.strong:
        return Font("bold", size)
    if count.beat:
        return Font("regular", size)
    return Font("regular", size - 1.0, LIGHT)


def _fits(counts: tuple[Count, ...], scale: Scale, size: float) -> bool:
    end = 0.0
    for count in counts:
        half = width(count.label, _font(count, size)) / 2
        x = scale.x(count.onset)
        if x - half < end:
            return False
        end = x + half + GAP
    return end <= scale.width


def draw_counts(canvas: Canvas, scale: Scale, y: float, counts: tuple[Count, ...]) -> None:
    """Draw the counts of a bar, each under its moment."""
    heard = tuple(count for count in counts if count.onset >= scale.start)
    size = next((size for size in SIZES if _fits(heard, scale, size)), SIZES[-1])
    for count in heard:
        canvas.text(scale.x(count.onset), y, count.label, _font(count, size), "middle")
