"""The options of a handout."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from formsheet.sheet.mark_styles import BOXES, MarkStyle

PageSize = Literal["A4", "Letter", "A4 portrait", "Letter portrait"]
UPRIGHT: dict[PageSize, PageSize] = {"A4": "A4 portrait", "Letter": "Letter portrait"}


Colours = tuple[str, str]  # of blow and draw, as "#rrggbb"
BLACK_INK: Colours = ("#000", "#000")


@dataclass(frozen=True, slots=True)
class Options:
    """The options of one build; all of them affect the contents of the files."""

    page_size: PageSize = "A4"
    wav: bool = False  # clips as WAV instead of MP3
    marks: MarkStyle = BOXES
    light: bool = False  # draw boxes are white with a black foot: saves toner
    large: bool = False  # large print, for weak eyes
    colours: Colours = BLACK_INK


AS_USUAL = Options()
