"""How wide a text stands where every letter has a place of one width: the cells it takes."""

from __future__ import annotations

import unicodedata

#: Marks on the letter before, and characters that only shape or order others.
_WITHOUT_CELL = ("Mn", "Me", "Cf")
_WIDE = "FW"


def cells(text: str) -> int:
    """Cells of a fixed-pitch face that a text takes: Unicode Standard Annex 11.

    Wide and fullwidth characters take two, combining marks and format characters none.
    """
    return len(text) if text.isascii() else sum(map(_cells_of, text))


def _cells_of(sign: str) -> int:
    if sign.isascii():
        return 1
    if unicodedata.category(sign) in _WITHOUT_CELL:
        return 0
    return 2 if unicodedata.east_asian_width(sign) in _WIDE else 1


def filled(text: str, width: int, right: bool = False) -> str:
    """A text with spaces up to a width in cells, behind it or, flush right, before it."""
    room = " " * (width - cells(text))
    return room + text if right else text + room
