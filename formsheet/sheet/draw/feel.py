"""The sign of the feel: two eighths as written and as played."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.glyphs import STEM_X
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.rhythm import draw_rhythm
from formsheet.sheet.draw.rows import Rows
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.view import HoleMark, Mark

_TAB = HoleMark((1,), draw=False)
_PAIR = tuple(Mark(Fraction(i, 2), Fraction(1, 2), "e", tab=_TAB) for i in range(2))
_SWUNG = (
    Mark(Fraction(0), Fraction(2, 3), "q", triplet=True, tab=_TAB),
    Mark(Fraction(2, 3), Fraction(1, 3), "e", triplet=True, tab=_TAB),
)
HEIGHT = 10.6
_ROWS = Rows(0, 0, 0, stem_top=3.2, head=9.4, count=0, height=HEIGHT)
_UNIT = 9.6  # mm a quarter
_NUMBER = Font("italic", 8.5)


def _place(canvas: Canvas, x: float, marks: tuple[Mark, ...]) -> None:
    inset = Scale(0, _UNIT).x(Fraction(0))
    shifted = Scale(0, _UNIT, Fraction(round((inset - x) / _UNIT * 1000), 1000))
    draw_rhythm(canvas, shifted, _ROWS, marks, Fraction(1))


def feel_width(feel: str) -> float:
    """The width (mm) of the sign of a feel."""
    return 10.0 if feel == "straight" else 28.0


def feel_sign(feel: str) -> Canvas:
    """An equation of notes for "swing", an even pair for "straight".

    For a ratio such as "3:2", a pair spaced by the ratio under its two numbers.
    """
    swung = feel == "swing"
    canvas = Canvas(feel_width(feel), HEIGHT)
    _place(canvas, 1.8, _PAIR)
    if feel == "straight":
        return canvas
    canvas.text(12.6, 8.2, "=", Font("regular", 13), "middle")
    if swung:
        _place(canvas, 17.6, _SWUNG)
    else:
        _place_ratio(canvas, 17.6, *map(int, feel.split(":")))
    return canvas


def _place_ratio(canvas: Canvas, x: float, long: int, short: int) -> None:
    """Draw two eighths that divide a beat in the ratio long to short, with the numbers above."""
    second = Fraction(long, long + short)
    pair = (_PAIR[0], replace(_PAIR[1], onset=second))
    _place(canvas, x, pair)
    for onset, number in ((Fraction(0), long), (second, short)):
        canvas.text(x + STEM_X + float(onset) * _UNIT, 2.6, str(number), _NUMBER, "middle")
