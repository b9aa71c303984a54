"""What the teacher may choose about a pack."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PageSize = Literal["A4", "Letter", "A4 portrait", "Letter portrait"]


@dataclass(frozen=True, slots=True)
class Options:
    """The choices of one build; all of them decide what the files hold."""

    page_size: PageSize = "A4"
    compressed: bool = False  # clips as MP3 instead of WAV
