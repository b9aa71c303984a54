"""Words above or below marks; words that would touch are put in further rows."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from formsheet.sheet.draw.metrics import Font, width

GAP = 0.9  # mm between two words of a row

_ACCIDENTALS = (
    (re.compile(r"\b([A-G])b(?![a-ln-z])"), "\\1♭"),
    (re.compile(r"\b([A-G])#"), "\\1♯"),
    (re.compile(r"(?<![A-Za-z])b(?=b?(?:[IViv]|\d))|(?<=\bb)b(?=\d)|(?<=\d)b(?=\d)"), "♭"),
    (re.compile(r"(?<![A-Za-z])#(?=[IViv]+|\d)|(?<=\d)#(?=\d)"), "♯"),
)


def accidentals(text: str) -> str:
    """The text of chords, keys and degrees with typographic flats and sharps."""
    for pattern, sign in _ACCIDENTALS:
        text = pattern.sub(sign, text)
    return text


@dataclass(frozen=True, slots=True)
class PlacedWord:
    """A word, its left end (mm) and its row, from 0."""

    text: str
    x: float
    row: int


def place(
    items: Iterable[tuple[float, str]], font: Font, limit: float, start: float = 0.0
) -> list[PlacedWord]:
    """Words centred at their x (mm), within `start` and `limit`, in the first row with room."""
    ends: list[float] = []
    words = []
    for centre, text in items:
        wide = width(text, font)
        left = max(start + 0.7, min(centre - wide / 2, limit - 0.7 - wide))
        row = next((i for i, end in enumerate(ends) if end + GAP <= left), len(ends))
        ends[row : row + 1] = [left + wide]
        words.append(PlacedWord(text, left, row))
    return words


def rows(words: Iterable[PlacedWord]) -> int:
    """The number of rows of the words."""
    return max((word.row + 1 for word in words), default=0)


def share_row(
    some: Sequence[PlacedWord], font: Font, others: Sequence[PlacedWord], other_font: Font
) -> bool:
    """Whether words of two kinds, each kind in one row, can share a row."""
    if not (rows(some) == rows(others) == 1):
        return False
    spans = sorted(
        (word.x, word.x + width(word.text, face))
        for words, face in ((some, font), (others, other_font))
        for word in words
    )
    return all(end + GAP <= start for (_, end), (start, _) in pairwise(spans))
