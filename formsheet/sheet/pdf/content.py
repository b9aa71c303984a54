"""A drawing as PDF operators (ISO 32000-1, Annex A)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import groupby

from fontTools.pens.basePen import AbstractPen
from fontTools.svgLib.path import parse_path

from formsheet.sheet.draw.canvas import Canvas, Run, Word, number
from formsheet.sheet.draw.metrics import width
from formsheet.sheet.draw.typeface import source, typeface

Point = tuple[float, float]

MITRE_LIMIT = 4  # as in SVG, so that corners look the same as on the screen


@dataclass(frozen=True, slots=True)
class Content:
    """The operators of a drawing, and the characters that it uses from each face."""

    operators: bytes
    used: dict[str, set[str]] = field(default_factory=dict)


def content(canvas: Canvas) -> Content:
    """The strokes, areas and words of a drawing, without texts that must be shaped."""
    used: dict[str, set[str]] = {}
    lines = [f"{MITRE_LIMIT} M"]
    for (weight, ink), paths in canvas.strokes.items():
        lines.append(f"{_grey(ink)} RG {number(weight)} w {_path(paths)} S")
    if canvas.fills:
        lines.append(f"0 0 0 rg {_path(canvas.fills)} f")
    for run in canvas.runs:
        lines.append(f"BT {_grey(run.font.ink)} rg")
        lines += (line for word in run.words for line in _word(word, run, used))
        lines.append("ET")
    return Content("\n".join(lines).encode("ascii"), used)


def _grey(ink: str) -> str:
    """Red, green and blue (0 to 1) of an ink given as `#rgb`."""
    return " ".join(f"{int(digit, 16) / 15:.6g}" for digit in ink[1:])


def _word(word: Word, run: Run, used: dict[str, set[str]]) -> Iterator[str]:
    """A word, divided by face; y is inverted, since it grows upwards in PDF text space."""
    x = word.x
    for face, characters in groupby(word.text, lambda each: source(each, run.font.face)):
        text = "".join(characters)
        used.setdefault(face, set()).update(text)
        glyphs = "".join(f"{glyph_id(character, face):04x}" for character in text)
        yield f"/{face} {run.font.mm:.4f} Tf 1 0 0 -1 {number(x)} {number(word.y)} Tm <{glyphs}> Tj"
        x += width(text, run.font)


def glyph_id(character: str, face: str) -> int:
    """The glyph number of a character in its face."""
    each = typeface(face)
    number: int = each.font.getGlyphID(each.glyphs[character])
    return number


def _path(paths: list[str]) -> str:
    pen = _Pen()
    for path in paths:
        parse_path(path, pen)
    return " ".join(pen.operators)


class _Pen(AbstractPen):  # type: ignore[misc]
    """Converts a path to operators as it is drawn."""

    def __init__(self) -> None:
        self.operators: list[str] = []

    def _write(self, operator: str, *points: Point) -> None:
        self.operators += (f"{number(x)} {number(y)}" for x, y in points)
        self.operators.append(operator)

    def moveTo(self, pt: Point) -> None:
        self._write("m", pt)

    def lineTo(self, pt: Point) -> None:
        self._write("l", pt)

    def curveTo(self, *points: Point) -> None:
        self._write("c", *points)

    def closePath(self) -> None:
        self._write("h")

    def endPath(self) -> None:
        """End an open path; this needs no operator."""
