"""Reading a printed sheet back: characters with the boxes of their ink."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import pdfplumber
from fontTools.ttLib import TTFont

from formsheet.sheet.draw.typeface import FACE_FILES, FONTS
from formsheet.sheet.options import PageSize
from formsheet.sheet.typeset import sheet_pdf
from tests.sheet.gallery import GALLERY

MM = 72 / 25.4


@dataclass(frozen=True)
class Char:
    """A character: its ink (points, from the page's top left), its size and face."""

    text: str
    left: float
    right: float
    top: float
    bottom: float
    base: float
    size: float
    face: str
    start: float  # of its advance
    end: float
    content: int | None = None  # number of the tagged piece of content that it is part of


@dataclass(frozen=True)
class Page:
    """A page's characters in the order of the file."""

    width: float
    height: float
    chars: tuple[Char, ...]

    @property
    def text(self) -> str:
        return "".join(char.text for char in self.chars if not char.text.isspace())

    def runs(self) -> list[tuple[Char, ...]]:
        """Characters that follow each other closely in one style and on one base line."""
        runs: list[list[Char]] = [[self.chars[0]]]
        for one, other in pairwise(self.chars):
            near = abs(other.start - one.end) < 0.03 * one.size
            alike = (one.size, one.face, one.base) == (other.size, other.face, other.base)
            if near and alike and not (one.text + other.text).isspace():
                runs[-1].append(other)
            else:
                runs.append([other])
        return [tuple(run) for run in runs]


@cache
def _bounds(face: str) -> dict[str, tuple[float, float, float, float]]:
    if face == FOREIGN:
        return {}
    with TTFont(FONTS / FACE_FILES[face]) as font:
        em, glyphs = font["head"].unitsPerEm, font["glyf"]
        return {
            chr(code): tuple(getattr(glyphs[name], side, 0) / em for side in SIDES)
            for code, name in font.getBestCmap().items()
        }


SIDES = ("xMin", "xMax", "yMin", "yMax")


FOREIGN = "foreign"  # a face of the machine, for what ours lack


def _face(font_name: str) -> str:
    if "Signs" in font_name:
        return "signs"
    if "Lesson-Sans" not in font_name:
        return FOREIGN
    return next((face for face in ("bold", "italic") if face in font_name.lower()), "regular")


def pdf(name: str, page_size: PageSize = "A4") -> bytes:
    """A sheet of the gallery, printed once."""
    return _pdf(name, page_size)


def pages(name: str, page_size: PageSize = "A4") -> tuple[Page, ...]:
    """The pages of a sheet of the gallery, read once."""
    return _pages(name, page_size)


# Caches tell a default that is left out from one that is given, so these have none.


@cache
def _pdf(name: str, page_size: PageSize) -> bytes:
    return sheet_pdf(GALLERY[name](), page_size=page_size)


@cache
def _pages(name: str, page_size: PageSize) -> tuple[Page, ...]:
    return read(pdf(name, page_size))


def read(printed: bytes) -> tuple[Page, ...]:
    """The pages of a PDF."""
    out = []
    with pdfplumber.open(io.BytesIO(printed)) as document:
        for page in document.pages:
            chars = []
            for raw in page.chars:
                face = _face(raw["fontname"])
                left, right, low, high = _bounds(face).get(raw["text"], (0, 0.5, 0, 0.7))
                size, x, base = raw["size"], raw["x0"], page.height - raw["matrix"][5]
                chars.append(
                    Char(
                        raw["text"],
                        x + left * size,
                        x + right * size,
                        base - high * size,
                        base - low * size,
                        round(base, 2),
                        round(size, 1),
                        face,
                        raw["x0"],
                        raw["x1"],
                        raw.get("mcid"),
                    )
                )
            out.append(Page(page.width, page.height, tuple(chars)))
    return tuple(out)


def overlaps(page: Page) -> Iterator[tuple[Char, Char]]:
    """Pairs of characters whose ink overlaps."""
    order = sorted(range(len(page.chars)), key=lambda i: page.chars[i].left)
    for place, i in enumerate(order):
        one = page.chars[i]
        for j in order[place + 1 :]:
            other = page.chars[j]
            if other.left > one.right - 0.2:
                break
            high, low = max(one.top, other.top), min(one.bottom, other.bottom)
            if low - high > 0.2 and abs(i - j) > 1:  # neighbours in a word may lean together
                yield one, other
