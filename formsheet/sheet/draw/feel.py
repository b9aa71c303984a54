"""The sign of the feel: two eighths as written and as played. Lengths are millimetres."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.rests import at

HEIGHT = 8.0
HEAD = 0.85  # half the width of a note head
STEM = 2.7
STEM_WEIGHT = 0.25
BEAM = 0.6
FOOT = 7.0  # y of the heads
APART = 3.6  # between the two notes of a pair
LIFT = 1.3  # from the beam up to the 3 of a triplet or a ratio's figures
_HEAD = (
    "M1.32-.42C1.5.1 .7.86-.3.94C-1 1-1.42.76-1.34.3"
    "C-1.22-.36-.5-.9.34-.95C.9-.98 1.24-.76 1.32-.42z"
)
_FLAG = "M0 0C.2 1.5 1.95 2 1.5 4.9C1.45 3.2 .8 2.5 0 2.2z"
_SMALL = Font("regular", 7.5)


def feel_width(feel: str) -> float:
    """The width (mm) of the sign of a feel."""
    return 6.4 if feel == "straight" else 17.4


def feel_sign(feel: str) -> Canvas:
    """An equation of notes for "swing", an even pair for "straight".

    For a ratio such as "3:2", a pair spaced by the ratio under its two numbers.
    """
    canvas = Canvas(feel_width(feel), HEIGHT)
    _pair(canvas, 1.2, 1.2 + APART)
    if feel == "straight":
        return canvas
    canvas.text(8.2, FOOT - 0.3, "=", Font("regular", 10), "middle")
    first = 11.0
    if feel == "swing":
        _note(canvas, first)
        _note(canvas, first + APART + 0.6)
        stem = first + APART + 0.6 + HEAD
        canvas.fill(at(_FLAG, stem - STEM_WEIGHT / 2, FOOT - STEM, 0.5))
        canvas.text(first + 2.6, FOOT - STEM - 0.2, "3", _SMALL, "middle")
        return canvas
    long, short = map(int, feel.split(":"))
    second = first + 2 * APART * long / (long + short)
    _pair(canvas, first, second)
    for x, number in ((first, long), (second, short)):
        canvas.text(x + HEAD, FOOT - STEM - 0.2, str(number), _SMALL, "middle")
    return canvas


def _pair(canvas: Canvas, first: float, second: float) -> None:
    for x in (first, second):
        _note(canvas, x)
    half = STEM_WEIGHT / 2
    canvas.rectangle(first + HEAD - half, FOOT - STEM, second - first + 2 * half, BEAM)


def _note(canvas: Canvas, x: float) -> None:
    canvas.fill(at(_HEAD, x, FOOT, HEAD / 1.4))
    canvas.rectangle(x + HEAD - STEM_WEIGHT / 2, FOOT - STEM, STEM_WEIGHT, STEM - 0.2)
