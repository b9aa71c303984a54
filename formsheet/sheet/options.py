"""The options of a handout."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle

PageSize = Literal["A4", "Letter", "A4 portrait", "Letter portrait"]
UPRIGHT: dict[PageSize, PageSize] = {"A4": "A4 portrait", "Letter": "Letter portrait"}


@dataclass(frozen=True, slots=True)
class Options:
    """The options of one build; all of them affect the contents of the files."""

    page_size: PageSize = "A4"
    compressed: bool = False  # clips as MP3 instead of WAV
    marks: MarkStyle = BREATH_LINE
    compact: bool = False  # a repeated lick is printed once
    large: bool = False  # large print, for weak eyes
