"""The heading of a screen card: title and chords. Lengths are in pixels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, covered, width
from formsheet.sheet.draw.screen_ink import Ink, Live, ink
from formsheet.sheet.draw.typeface import Face
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Card

TITLE_SIZES = (72.0, 64.0, 56.0, 48.0, 44.0, 40.0, 36.0, 32.0, 28.0)  # em
ON_SIZES = (52.0, 48.0, 44.0, 40.0, 36.0, 32.0, 28.0)
ON_SHARE = 0.35  # largest share of the width for the chords
BETWEEN = 40.0  # least gap
LINES = 2  # most lines, except at the smallest size
LEADING = 1.2
ASCENT = 0.95  # em from the top of a line to its base line, accents included
BELOW = 24.0
FOREIGN_EM = 1.0  # em, width of a character that the faces lack: enough for any script


@dataclass(frozen=True, slots=True)
class _Set:
    """A text broken into lines."""

    lines: tuple[str, ...]
    font: Font

    @property
    def height(self) -> float:
        return len(self.lines) * LEADING * self.font.mm

    @property
    def width(self) -> float:
        return max(_wide(line, self.font) for line in self.lines)


def head_height(title: str, on: str, room: float) -> float:
    """Height of the heading with the space below it."""
    return max(one.height for one in _both(title, on, room)) + BELOW


def head_width(title: str, on: str) -> float:
    """Width of the heading with each text on one line at the largest size."""
    title_wide = _wide(title, _font("bold", TITLE_SIZES[0]))
    return title_wide + BETWEEN + _wide(on, _font("regular", ON_SIZES[0]))


def head_words(card: Card, part: int, parts: int) -> str:
    """The words beside the title: "on IV7", "on I | V · 2 of 3"."""
    words = accidentals(card.on)
    return f"{words} · {part} of {parts}" if parts > 1 else words


def draw_head(title: str, on: str, left: float, top: float, room: float) -> Iterator[Ink]:
    """The heading in a width of `room`: the title at the left, the rest at the right."""
    canvas = Canvas(0, 0)
    for one, right in zip(_both(title, on, room), (False, True), strict=True):
        for i, line in enumerate(one.lines):
            y = top + (i * LEADING + ASCENT) * one.font.mm
            if not covered(line, one.font.face):
                x = left + (room - _wide(line, one.font) if right else 0.0)
                yield Live(line, x, y, one.font.mm, one.font.face == "bold")
            elif right:
                canvas.text(left + room, y, line, one.font, "end")
            else:
                canvas.text(left, y, line, one.font)
    yield from ink(canvas)


def _both(title: str, on: str, room: float) -> tuple[_Set, _Set]:
    right = _set(on, "regular", ON_SIZES, room * ON_SHARE)
    return _set(title, "bold", TITLE_SIZES, room - right.width - BETWEEN), right


def _set(text: str, face: Face, sizes: Sequence[float], room: float) -> _Set:
    """A text at the largest size at which it takes at most two lines."""
    for size in sizes:
        font = _font(face, size)
        lines = tuple(_broken(text, font, room))
        if len(lines) <= LINES:
            break
    return _Set(lines, font)


def _broken(text: str, font: Font, room: float) -> Iterator[str]:
    """The lines of a text; a word longer than a line is broken anywhere."""
    line = ""
    for word in text.split():
        joined = f"{line} {word}" if line else word
        if _wide(joined, font) <= room:
            line = joined
            continue
        if line:
            yield line
        line = ""
        for character in word:
            if line and _wide(line + character, font) > room:
                yield line
                line = ""
            line += character
    yield line


def _font(face: Face, size: float) -> Font:
    """A face at a size in pixels: its metrics in "mm" are then pixels too."""
    return Font(face, size / MM_PER_PT)


def _wide(text: str, font: Font) -> float:
    if covered(text, font.face):
        return width(text, font)
    return sum(
        width(one, font) if covered(one, font.face) else FOREIGN_EM * font.mm for one in text
    )
