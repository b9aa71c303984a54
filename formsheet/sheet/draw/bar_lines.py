"""Bar lines: plain ones, and those at the ends of a chorus. Lengths are millimetres."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.note_box import circle

PLAIN = 0.35
THIN = 0.3
THICK = 1.0  # the heavy stroke at the end of a tune, or of a repeat
BETWEEN = 0.6  # between heavy and thin stroke
DOT = 0.5  # radius of a repeat's dots
DOTS = 1.0  # from the thin stroke to the middle of the dots
#: Width that the bar line at the end of a chorus takes from its bar.
CLOSING = {"": 0.0, "line": 0.0, "final": 2.4, "repeat": 4.2, "double": 1.4}
OPENING = 2.6  # the same at the start of a repeat


def draw_left(canvas: Canvas, top: float, foot: float) -> None:
    """The bar line at the left of a line of bars."""
    canvas.rectangle(-PLAIN / 2, top, PLAIN, foot - top)


def draw_opening(canvas: Canvas, top: float, foot: float, comb: tuple[float, float]) -> None:
    """A repeat starts here; `comb`: the heights of the comb's two lines."""
    canvas.rectangle(-PLAIN / 2, top, THICK, foot - top)
    canvas.rectangle(THICK + BETWEEN - PLAIN / 2, top, THIN, foot - top)
    _dots(canvas, THICK + BETWEEN + THIN + DOTS, comb)


def draw_closing(
    canvas: Canvas, right: float, top: float, foot: float, closes: str, comb: tuple[float, float]
) -> None:
    """The bar line at `right`: "" between bars, "line" at the end of a line, or an ending."""
    if closes in ("", "line"):
        canvas.rectangle(right - PLAIN / 2, top, PLAIN, foot - top)
        return
    thick = THICK if closes in ("final", "repeat") else THIN
    edge = right + PLAIN / 2
    canvas.rectangle(edge - thick, top, thick, foot - top)
    thin = edge - thick - BETWEEN - THIN
    canvas.rectangle(thin, top, THIN, foot - top)
    if closes == "repeat":
        _dots(canvas, thin - DOTS, comb)


def _dots(canvas: Canvas, x: float, comb: tuple[float, float]) -> None:
    top, foot = comb
    for share in (0.32, 0.68):
        canvas.fill(circle(x, top + share * (foot - top), DOT))
