"""The typefaces and their metrics: the width of a text, the height of a figure."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from unicodedata import combining, east_asian_width

from formsheet.sheet.draw.typeface import Face, source, typeface

MM_PER_PT = 25.4 / 72
UNKNOWN = 0.6  # em, width of a character that the face lacks
UNKNOWN_BOLD = 0.78
WIDE = 1.0  # em, width of a square character, as in Chinese or Japanese
WORD_SPACE = 1.2  # mm at least, so that text extracted from the file has separate words
FIGURE_HEIGHT = 0.668  # em: figures and capitals


@dataclass(frozen=True, slots=True)
class Font:
    """A face at a size (points), and its ink."""

    face: Face
    size: float
    ink: str = "#000"

    @property
    def mm(self) -> float:
        """The size in millimetres."""
        return self.size * MM_PER_PT

    @property
    def figure_height(self) -> float:
        """Height of a figure above its base line, in millimetres."""
        return FIGURE_HEIGHT * self.mm


@cache
def _advances(face: str) -> dict[str, float]:
    """Advance widths of a face, in em, by character."""
    each = typeface(face)
    widths = each.font["hmtx"].metrics
    return {character: widths[name][0] / each.em for character, name in each.glyphs.items()}


def advance(character: str, font: Font) -> float:
    """Advance width of one character in millimetres, from the face of signs if it has it."""
    if character == " ":
        return max(WORD_SPACE, _advances(font.face)[" "] * font.mm)
    for face in ("signs", font.face):
        if character in (known := _advances(face)):
            return known[character] * font.mm
    if combining(character):
        return 0.0
    unknown = UNKNOWN_BOLD if font.face == "bold" else UNKNOWN
    return (WIDE if east_asian_width(character) in "WF" else unknown) * font.mm


def covered(text: str, face: Face) -> bool:
    """Whether the sheet's faces have every character of a text; spaces always count as present."""
    return all(character.isspace() or source(character, face) for character in text)


@lru_cache(1 << 14)
def width(text: str, font: Font) -> float:
    """Width of a text on one line, in millimetres."""
    return sum(advance(character, font) for character in text)
