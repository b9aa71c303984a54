"""Bar lines: plain ones, and those at the ends of a chorus. Lengths are millimetres."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.glyphs import ball
from formsheet.sheet.draw.rows import OPENING

THIN = 0.25
THICK = 0.9  # the heavy stroke at the end of a tune, or of a repeat
BETWEEN = 0.6  # between heavy and thin stroke
CLOSER = 0.45  # the same at the start of a repeat, where numbers are near
DOTS = 0.8  # from the thin stroke to the middle of a repeat's dots
APART = 1.1  # from each dot to the middle


def draw_opening(canvas: Canvas, top: float, high: float, dots: float | None) -> None:
    """Draw the left line; `dots`: a repeat starts here, and this is the middle of its dots."""
    if dots is None:
        canvas.rectangle(0, top, THIN, high)
        return
    canvas.rectangle(0, top, OPENING - THIN - CLOSER, high)
    canvas.rectangle(OPENING - THIN, top, THIN, high)
    _draw_dots(canvas, OPENING + DOTS, dots)


def draw_closing(
    canvas: Canvas, right: float, top: float, high: float, closes: str, dots: float
) -> None:
    """Draw the line that ends at `right`: "line" or an ending; `dots` as in `draw_opening`."""
    thick = THICK if closes in ("final", "repeat") else THIN
    canvas.rectangle(right - thick, top, thick, high)
    if closes != "line":
        canvas.rectangle(right - thick - BETWEEN - THIN, top, THIN, high)
    if closes == "repeat":
        _draw_dots(canvas, right - thick - BETWEEN - THIN - DOTS, dots)


def _draw_dots(canvas: Canvas, x: float, middle: float) -> None:
    for y in (middle - APART, middle + APART):
        canvas.fill(ball(x, y))
