"""Paragraphs broken into lines before typesetting, so that their height is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import SLACK

STEP = 0.98  # of the width: how much narrower a paragraph with a lone last word is tried


@lru_cache(1 << 12)
def balanced(text: str, font: Font, room: float) -> tuple[str, ...]:
    """The lines of a paragraph in a width of `room` mm; no word alone on the last, if possible."""
    words = text.split()
    lines = broken(words, font, room)
    narrow = room
    while len(lines) > 1 and " " not in lines[-1] and narrow > room / 2:
        narrow *= STEP
        tried = broken(words, font, narrow)
        if len(tried) > len(lines):
            break
        if " " in tried[-1]:
            return tuple(tried)
    return tuple(lines)


def broken(pieces: Sequence[str], font: Font, room: float) -> list[str]:
    """Pieces of text, which stay whole, in lines of at most `room` mm."""
    lines: list[str] = []
    for piece in (part for each in pieces for part in _parts(each, font, room)):
        longer = f"{lines[-1]} {piece}" if lines else piece
        if lines and width(longer, font) <= room * SLACK:
            lines[-1] = longer
        else:
            lines.append(piece)
    return lines or [""]


def _parts(piece: str, font: Font, room: float) -> Iterator[str]:
    """A piece, cut where it is longer than a line."""
    part = ""
    for character in piece if width(piece, font) > room * SLACK else ():
        if part and width(part + character, font) > room * SLACK:
            yield part
            part = ""
        part += character
    yield part or piece


def lines_needed(text: str, font: Font, room: float) -> int:
    """The number of lines of a paragraph; a word that is too long takes several."""
    return sum(
        1 + int(width(line, font) // (room * SLACK)) if " " not in line else 1
        for line in balanced(text, font, room)
    )
