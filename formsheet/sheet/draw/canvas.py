"""A drawing as data: shapes in the order in which they are painted, then texts by style.

`svg.py` and `sheet/pdf/` write it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal
from unicodedata import bidirectional, combining

from formsheet.sheet.draw.metrics import Font, advance, covered, width
from formsheet.sheet.draw.typeface import Face

Anchor = Literal["start", "middle", "end"]

BLACK = "#000"
WHITE = "#fff"


def number(value: float) -> str:
    """A coordinate as text, with two decimals: a hundredth of a millimetre."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


@dataclass(frozen=True, slots=True)
class Word:
    """Characters side by side, with the advance widths of the face."""

    text: str
    x: float  # mm, of its left end and its base line
    y: float


@dataclass(slots=True)
class Run:
    """Words of one style."""

    font: Font
    words: list[Word] = field(default_factory=list)


@dataclass(slots=True)
class Shape:
    """Paths painted in one go: stroked with a weight (mm), or filled if that is 0."""

    ink: str  # "#rgb" or "#rrggbb"
    weight: float
    paths: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class ShapedText:
    """A text that must be set as a whole: letters join, run right to left, or need another face.

    It is upright: most scripts have no slanted letters.
    """

    text: str
    x: float  # mm, of its left end and its base line
    y: float
    font: Font


@dataclass(slots=True)
class Canvas:
    """A drawing of a given size in millimetres; y grows downwards.

    Paths are written as in SVG, with M, L, C, V, h, v and z. A later shape covers an earlier one;
    texts are above all shapes.
    """

    width: float
    height: float
    left: float = 0.0  # x of its left edge
    shapes: list[Shape] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    shaped: list[ShapedText] = field(default_factory=list)

    def line(self, weight: float, *points: tuple[float, float], ink: str = BLACK) -> None:
        """Stroke a line through points (mm)."""
        steps = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        self.stroke(weight, f"M{steps}", ink)

    def stroke(self, weight: float, path: str, ink: str = BLACK) -> None:
        """Stroke a path."""
        self._paint(ink, weight, path)

    def fill(self, path: str, ink: str = BLACK) -> None:
        """Fill a path; holes have the opposite direction."""
        self._paint(ink, 0.0, path)

    def _paint(self, ink: str, weight: float, path: str) -> None:
        last = self.shapes[-1] if self.shapes else None
        if last is None or (last.ink, last.weight) != (ink, weight):
            last = Shape(ink, weight)
            self.shapes.append(last)
        last.paths.append(path)

    def rectangle(self, x: float, y: float, wide: float, high: float, ink: str = BLACK) -> None:
        """Fill a rectangle (mm)."""
        self.fill(f"M{number(x)} {number(y)}h{number(wide)}v{number(high)}h{number(-wide)}z", ink)

    def text(self, x: float, y: float, text: str, font: Font, anchor: Anchor = "start") -> float:
        """Write a text on its base line; returns the x of its right end."""
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
        x -= share * width(text, font)
        if needs_shaping(text):
            upright: Face = "regular" if font.face == "italic" else font.face
            self.shaped.append(ShapedText(text, x, y, replace(font, face=upright)))
            return x + width(text, font)
        space = advance(" ", font)
        for word in text.split(" "):  # each word has its own x, so spaces are not written
            if word:
                self._run(font).words.append(Word(word, x, y))
            x += width(word, font) + space
        return x - space

    def _run(self, font: Font) -> Run:
        for run in reversed(self.runs):  # texts do not overlap, so their order does not matter
            if run.font == font:
                return run
        self.runs.append(Run(font))
        return self.runs[-1]


def needs_shaping(text: str) -> bool:
    """Whether letters join, are reordered or need another face: then WeasyPrint places them."""
    return any(
        bidirectional(c) in ("R", "AL") or combining(c) or not covered(c, "regular") for c in text
    )
