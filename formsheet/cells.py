"""The width of a text in a fixed-pitch face, in cells."""

from __future__ import annotations

import unicodedata

#: Unicode categories without a cell: combining marks and format characters.
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
    """A text padded with spaces to a width in cells; `right`: flush right. Never cut."""
    room = " " * (width - cells(text))
    return room + text if right else text + room
