"""The font files of the sheet's typefaces, and their glyphs by character."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

FONTS = Path(__file__).resolve().parent.parent / "fonts"

Face = Literal["regular", "bold", "italic"]
FACE_FILES = {
    "regular": "sans-regular.ttf",
    "bold": "sans-bold.ttf",
    "italic": "sans-italic.ttf",
    "signs": "signs.ttf",
}


@dataclass(frozen=True, slots=True)
class Typeface:
    """A face that was read, and the names of its glyphs by character."""

    file: bytes
    font: TTFont
    glyphs: dict[str, str]

    @property
    def em(self) -> int:
        """Units per em."""
        units: int = self.font["head"].unitsPerEm
        return units


@cache
def face_files() -> dict[str, bytes]:
    """The contents of the font files, by the names of `FACE_FILES`."""
    return {name: (FONTS / name).read_bytes() for name in FACE_FILES.values()}


@cache
def typeface(name: str) -> Typeface:
    """A face of `FACE_FILES`."""
    from fontTools.ttLib import TTFont  # slow to import, and not needed without drawings

    file = face_files()[FACE_FILES[name]]
    font = TTFont(BytesIO(file), lazy=True)
    return Typeface(file, font, {chr(code): glyph for code, glyph in font.getBestCmap().items()})


def source(character: str, face: str) -> str:
    """The face to use for a character: signs first, then `face`; "" if neither has it."""
    return next((name for name in ("signs", face) if character in typeface(name).glyphs), "")
