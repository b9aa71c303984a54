"""The figure of a hole: its width at a size, and how it is drawn.

Hole 10 is set closer than other text: the sides of its two figures are trimmed, their shapes are
not changed.
"""

from __future__ import annotations

from functools import cache

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.typeface import Face, typeface

ONE_FIGURE = 0.6  # em: room for any single figure, so that all have the same column
KERN = 0.055  # em of white between the two figures of hole 10


@cache
def _sides(character: str, face: Face) -> tuple[float, float]:
    """The left and right ends of the ink of a figure, in em from its origin."""
    each = typeface(face)
    drawn = each.font["glyf"][each.glyphs[character]]
    return drawn.xMin / each.em, drawn.xMax / each.em


@cache
def room(hole: int, face: Face = "bold") -> float:
    """The width in em that the figure of a hole takes."""
    text = str(hole)
    if len(text) == 1:
        return ONE_FIGURE
    ink = sum(right - left for left, right in (_sides(each, face) for each in text))
    return ink + KERN * (len(text) - 1)


def draw_figure(canvas: Canvas, middle: float, y: float, hole: int, font: Font) -> None:
    """Draw a hole's figure on base line `y`, the middle of its ink at `middle` (mm)."""
    text = str(hole)
    sides = [_sides(each, font.face) for each in text]
    ink = sum(right - left for left, right in sides) + KERN * (len(text) - 1)
    x = middle - ink * font.mm / 2
    for character, (left, right) in zip(text, sides, strict=True):
        canvas.text(x - left * font.mm, y, character, font)
        x += (right - left + KERN) * font.mm
