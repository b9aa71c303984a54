"""What the teacher may choose about a pack."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from formsheet.pack.mark_styles import BREATH_LINE, MarkStyle

PageSize = Literal["A4", "Letter", "A4 portrait", "Letter portrait"]
UPRIGHT: dict[PageSize, PageSize] = {"A4": "A4 portrait", "Letter": "Letter portrait"}


@dataclass(frozen=True, slots=True)
class Options:
    """The choices of one build; all of them decide what the files hold."""

    page_size: PageSize = "A4"
    compressed: bool = False  # clips as MP3 instead of WAV
    marks: MarkStyle = BREATH_LINE
    compact: bool = False  # a lick that comes again is printed once
    large: bool = False  # large print, for weak eyes
