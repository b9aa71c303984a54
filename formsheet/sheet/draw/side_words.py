"""The words "blow" and "draw", upright beside the first line, as outlines."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas, number
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, advance, width
from formsheet.sheet.draw.typeface import typeface

FACE = Font("regular", 9.0)
LEAST = 7.0  # pt, in a low lane
BESIDE_HEAVY = 8.0  # pt, beside a heavy line
CLEAR_OF_HEAVY = 0.45
RIGHT = 1.75  # mm from the words to the bar line: 8 mm stay free at the edge of the page


def draw_side_words(
    canvas: Canvas,
    blow: tuple[float, float],
    draw: tuple[float, float],
    *,
    heavy: float = 0.0,
) -> None:
    """Draw both words, read upwards, in the middle of their lanes (tops and feet in mm).

    `heavy`: by how much a heavy line stands out from the bar line; then they are smaller.
    """
    right = max(RIGHT, heavy + CLEAR_OF_HEAVY)
    for word, (top, foot) in (("blow", blow), ("draw", draw)):
        size = BESIDE_HEAVY if heavy else FACE.size
        if width(word, Font("regular", size)) > foot - top:
            size = max(LEAST, FACE.size * (foot - top) / width(word, FACE))
        font = Font("regular", size)
        start = (top + foot) / 2 + width(word, font) / 2
        canvas.fill(upright(word, -right, start, font))


def upright(text: str, x: float, start: float, font: Font) -> str:
    """The outlines of a text that is read upwards from `start`, its base line at x (mm)."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    each = typeface(font.face)
    glyphs = each.font.getGlyphSet()
    scale = font.size * MM_PER_PT / each.em
    pen = SVGPathPen(glyphs, ntos=number)
    for character in text:
        turned = TransformPen(pen, (0, -scale, -scale, 0, x, start))
        glyphs[each.glyphs[character]].draw(turned)
        start -= advance(character, font)
    commands: str = pen.getCommands()
    return commands
