"""A drawing as plain shapes: text becomes outlines, so that no font is needed to show it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas, Run
from formsheet.sheet.draw.metrics import advance
from formsheet.sheet.draw.typeface import source, typeface


@dataclass(frozen=True, slots=True)
class Outline:
    """A path: stroked with a weight, or filled if that is 0."""

    path: str
    weight: float = 0.0


@dataclass(frozen=True, slots=True)
class Live:
    """Text that the sheet's faces lack; the program that shows it chooses the font."""

    text: str
    x: float  # its left end
    y: float  # its base line
    size: float  # em
    bold: bool = False


Ink = Outline | Live


def ink(canvas: Canvas) -> Iterator[Ink]:
    """The ink of a drawing, in its own unit; colours are dropped."""
    for (weight, _), paths in canvas.strokes.items():
        yield Outline("".join(paths), weight)
    if canvas.fills:
        yield Outline("".join(canvas.fills))
    for run in canvas.runs:
        yield from _letters(run)
    for text in canvas.shaped:
        yield Live(text.text, text.x, text.y, text.font.mm, text.font.face == "bold")


def _letters(run: Run) -> Iterator[Ink]:
    """The outlines of the characters of a run."""
    font, paths = run.font, []
    for word in run.words:
        x = word.x
        for character in word.text:
            if face := source(character, font.face):
                paths.append(_outline(character, face, x, word.y, font.mm))
            else:
                yield Live(character, x, word.y, font.mm, font.face == "bold")
            x += advance(character, font)
    if paths:
        yield Outline("".join(paths))


def _outline(character: str, face: str, x: float, y: float, size: float) -> str:
    """The outline of a character on its base line."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    drawn = typeface(face)
    glyphs = drawn.font.getGlyphSet()
    scale = size / drawn.em
    pen = SVGPathPen(glyphs, ntos=_fine)
    glyphs[drawn.glyphs[character]].draw(TransformPen(pen, (scale, 0, 0, -scale, x, y)))
    commands: str = pen.getCommands()
    return commands


def _fine(value: float) -> str:
    """A coordinate of an outline, with three decimals: a screen may enlarge it twentyfold."""
    return f"{value:.3f}".rstrip("0").rstrip(".")
