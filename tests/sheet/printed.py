"""Reading a printed sheet back: characters with the boxes of their ink, and painted shapes."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

import pdfplumber
from fontTools.ttLib import TTFont

from formsheet.sheet.draw.typeface import FACE_FILES, FONTS
from formsheet.sheet.options import Options, PageSize
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
    ink: str = "#000000"
    stretch: float = 1.0  # its width by its height, as set; 1: as the face has it
    advance: float = 0.0  # of the face at its size, as its font file has it


@dataclass(frozen=True)
class Shape:
    """One path that is filled or stroked, in points from the page's top left."""

    left: float  # with the weight of its stroke
    right: float
    top: float
    bottom: float
    weight: float  # of its stroke; 0: it is filled
    ink: str
    points: tuple[tuple[float, float], ...]  # its corners and the ends of its curves
    steps: str  # its operators: "mllh"
    content: int | None = None

    @property
    def rectangle(self) -> bool:
        """Whether it is a filled rectangle along the page."""
        return (
            not self.weight
            and set(self.steps) <= set("mlh")
            and len({round(x, 2) for x, _ in self.points}) == 2
            and len({round(y, 2) for _, y in self.points}) == 2
        )

    @property
    def thin(self) -> float:
        """The weight of a line or the smaller side of a rectangle; of other shapes infinite."""
        if self.weight:
            return self.weight
        if not self.rectangle:
            return float("inf")
        return min(self.right - self.left, self.bottom - self.top)

    def edge(self, x: float, near: float = 0.3) -> bool:
        """Whether a straight side of it is upright at `x`."""
        closed = self.points[:1] if "h" in self.steps else ()
        return any(
            abs(one[0] - x) < near and abs(other[0] - x) < near
            for one, other in pairwise((*self.points, *closed))
        )


@dataclass(frozen=True)
class Page:
    """A page's characters in the order of the file."""

    width: float
    height: float
    chars: tuple[Char, ...]
    shapes: tuple[Shape, ...] = ()

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


@cache
def _advances(face: str) -> dict[str, float]:
    """The advance of each character of a face, in em."""
    if face == FOREIGN:
        return {}
    with TTFont(FONTS / FACE_FILES[face]) as font:
        em, widths = font["head"].unitsPerEm, font["hmtx"].metrics
        return {chr(code): widths[name][0] / em for code, name in font.getBestCmap().items()}


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
    return sheet_pdf(GALLERY[name](), Options(page_size=page_size))


@cache
def _pages(name: str, page_size: PageSize) -> tuple[Page, ...]:
    return read(pdf(name, page_size))


def read(printed: bytes) -> tuple[Page, ...]:
    """The pages of a PDF."""
    with pdfplumber.open(io.BytesIO(printed)) as document:
        return tuple(
            Page(
                page.width,
                page.height,
                tuple(_char(raw, page.height) for raw in page.chars),
                tuple(_shapes(page)),
            )
            for page in document.pages
        )


def _char(raw: dict[str, Any], height: float) -> Char:
    face = _face(raw["fontname"])
    left, right, low, high = _bounds(face).get(raw["text"], (0, 0.5, 0, 0.7))
    size, x, base = raw["size"], raw["x0"], height - raw["matrix"][5]
    wide, _, _, high_scale, *_ = raw["matrix"]
    return Char(
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
        _ink(raw["non_stroking_color"]),
        abs(wide / high_scale),
        _advances(face).get(raw["text"], 0.0) * size,
    )


def _shapes(page: Any) -> Iterator[Shape]:
    for raw in (*page.rects, *page.lines, *page.curves):
        painted = [(0.0, "non_stroking_color")] if raw["fill"] else []
        if raw["stroke"]:
            painted.append((float(raw["linewidth"]), "stroking_color"))
        steps = raw["path"]
        points = tuple(step[-1] for step in steps if len(step) > 1)
        if len(steps) < 2 and raw["object_type"] == "rect":  # the operator `re`
            points = tuple(raw["pts"])
        for weight, colour in painted:
            across = down = weight / 2
            if len(points) == 2:  # the ends of a line are butt
                across = 0.0 if abs(raw["x1"] - raw["x0"]) > weight else across
                down = 0.0 if abs(raw["bottom"] - raw["top"]) > weight else down
            yield Shape(
                raw["x0"] - across,
                raw["x1"] + across,
                raw["top"] - down,
                raw["bottom"] + down,
                weight,
                _ink(raw[colour]),
                points,
                "".join(step[0] for step in steps),
                raw.get("mcid"),
            )


def _ink(colour: Any) -> str:
    """A colour of one or three parts, 0 to 1, as "#rrggbb"."""
    parts = list(colour) if isinstance(colour, (tuple, list)) else [colour or 0]
    parts = parts * 3 if len(parts) == 1 else parts
    assert len(parts) == 3, colour
    return "#" + "".join(f"{round(255 * part):02x}" for part in parts)


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
