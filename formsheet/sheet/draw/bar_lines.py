"""Bar lines: plain ones, and those at the ends of a chorus. Lengths are millimetres."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.note_box import circle

PLAIN = 0.35
THIN = 0.3
THICK = 1.0  # the heavy stroke at the end of a tune, or of a repeat
BETWEEN = 0.5  # between heavy and thin stroke
DOT = 0.6  # radius of a repeat's dots
DOTS = 1.0  # from the thin stroke to the middle of the dots
REPEAT_ROOM = 1.8  # of a bar before a repeat sign, for its dots
OUTSIDE = BETWEEN + THICK  # by which a heavy line stands outside its bar


def draw_left(canvas: Canvas, top: float, foot: float) -> None:
    """The bar line at the left of a line of bars."""
    canvas.rectangle(-PLAIN / 2, top, PLAIN, foot - top)


def draw_opening(canvas: Canvas, top: float, foot: float, comb: tuple[float, float]) -> None:
    """A repeat starts here; `comb`: the heights of the comb's two lines."""
    canvas.rectangle(-OUTSIDE, top, THICK, foot - top)
    canvas.rectangle(-THIN / 2, top, THIN, foot - top)
    _dots(canvas, DOTS, comb)


def draw_closing(
    canvas: Canvas, right: float, top: float, foot: float, closes: str, comb: tuple[float, float]
) -> None:
    """The bar line at `right`: "" between bars, "line" at the end of a line, or an ending."""
    if closes in ("", "line"):
        canvas.rectangle(right - PLAIN / 2, top, PLAIN, foot - top)
        return
    canvas.rectangle(right - THIN / 2, top, THIN, foot - top)
    weight = THIN if closes == "double" else THICK
    canvas.rectangle(right + BETWEEN, top, weight, foot - top)
    if closes == "repeat":
        _dots(canvas, right - DOTS, comb)


def _dots(canvas: Canvas, x: float, comb: tuple[float, float]) -> None:
    top, foot = comb
    for share in (0.32, 0.68):
        canvas.fill(circle(x, top + share * (foot - top), DOT))
