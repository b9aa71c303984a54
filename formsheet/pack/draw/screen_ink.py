"""A drawing as plain shapes: its text becomes outlines, so that it needs no face to be shown."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from formsheet.pack.draw.metrics import FACE_FILES, FONTS, Face

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

_SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True, slots=True)
class Outline:
    """A path: stroked with a weight, or filled where that is 0."""

    path: str
    weight: float = 0.0


@dataclass(frozen=True, slots=True)
class Live:
    """Text that our faces lack, for the faces of whoever shows the drawing."""

    text: str
    x: float  # its left end
    y: float  # its base line
    size: float  # em
    bold: bool = False


Ink = Outline | Live


def ink(svg: str) -> Iterator[Ink]:
    """The ink of a drawing of `draw/canvas.py`, in its own unit; colours are left behind."""
    for element in ElementTree.fromstring(svg):
        if element.tag == f"{_SVG}path":
            yield Outline(element.get("d", ""), float(element.get("stroke-width", 0)))
        elif element.tag == f"{_SVG}text":
            yield from _letters(element)


def _letters(element: ElementTree.Element) -> Iterator[Ink]:
    """The characters of a text, each at its place; one that has one place in all as a whole."""
    text = element.text or ""
    size = float(element.get("font-size", 0))
    face = _face(element)
    xs = [float(x) for x in element.get("x", "").split()]
    ys = [float(y) for y in element.get("y", "").split()]
    if len(xs) == 1 and len(text) > 1:  # see `ShapedText` in canvas.py
        yield Live(text, xs[0], ys[0], size, face == "bold")
        return
    ys *= len(xs) if len(ys) == 1 else 1
    paths = []
    for character, x, y in zip(text, xs, ys, strict=True):
        if drawn := _source(character, face):
            paths.append(_outline(character, drawn, x, y, size))
        else:
            yield Live(character, x, y, size, face == "bold")
    if paths:
        yield Outline("".join(paths))


def _face(element: ElementTree.Element) -> Face:
    if element.get("font-weight") == "700":
        return "bold"
    return "italic" if element.get("font-style") == "italic" else "regular"


def covered(text: str, face: Face) -> bool:
    """Whether our faces have every character of a text."""
    return all(character == " " or _source(character, face) for character in text)


def _source(character: str, face: str) -> str:
    """The face that a character is taken from: signs first, as in `metrics.advance`; or ""."""
    return next((name for name in ("signs", face) if character in _known(name)[1]), "")


@cache
def _known(face: str) -> tuple[TTFont, dict[str, str]]:
    """A face, and the names of its glyphs by character."""
    from fontTools.ttLib import TTFont

    font = TTFont(FONTS / FACE_FILES[face])
    return font, {chr(code): name for code, name in font.getBestCmap().items()}


def _outline(character: str, face: str, x: float, y: float, size: float) -> str:
    """The outline of a character on its base line."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    font, names = _known(face)
    glyphs = font.getGlyphSet()
    scale = size / font["head"].unitsPerEm
    pen = SVGPathPen(glyphs, ntos=_fine)
    glyphs[names[character]].draw(TransformPen(pen, (scale, 0, 0, -scale, x, y)))
    commands: str = pen.getCommands()
    return commands


def _fine(value: float) -> str:
    """A coordinate of an outline: three decimals, since a screen may enlarge it twentyfold."""
    return f"{value:.3f}".rstrip("0").rstrip(".")
