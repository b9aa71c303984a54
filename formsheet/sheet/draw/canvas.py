"""A drawing as data: strokes grouped by weight, texts grouped by style.

`svg.py` and `sheet/pdf/` write it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal
from unicodedata import bidirectional, combining

from formsheet.sheet.draw.metrics import Font, advance, covered, width
from formsheet.sheet.draw.typeface import Face

Anchor = Literal["start", "middle", "end"]


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

    Paths are written as in SVG, with M, L, C, V, h, v and z.
    """

    width: float
    height: float
    strokes: dict[tuple[float, str], list[str]] = field(default_factory=dict)  # by weight and ink
    fills: list[str] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    shaped: list[ShapedText] = field(default_factory=list)

    def line(self, weight: float, *points: tuple[float, float], ink: str = "#000") -> None:
        """Stroke a line through points (mm)."""
        steps = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        self.stroke(weight, f"M{steps}", ink)

    def stroke(self, weight: float, path: str, ink: str = "#000") -> None:
        """Stroke a path."""
        self.strokes.setdefault((weight, ink), []).append(path)

    def fill(self, path: str) -> None:
        """Fill a path; holes have the opposite direction."""
        self.fills.append(path)

    def rectangle(self, x: float, y: float, wide: float, high: float) -> None:
        """Fill a rectangle (mm)."""
        self.fill(f"M{number(x)} {number(y)}h{number(wide)}v{number(high)}h{number(-wide)}z")

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
        if not self.runs or self.runs[-1].font != font:
            self.runs.append(Run(font))
        return self.runs[-1]


def needs_shaping(text: str) -> bool:
    """Whether letters join, are reordered or need another face: then WeasyPrint places them."""
    return any(
        bidirectional(c) in ("R", "AL") or combining(c) or not covered(c, "regular") for c in text
    )
