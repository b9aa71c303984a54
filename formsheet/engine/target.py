"""One handout to make: of which lesson, for which harp, with which options, in which folder."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.sheet.options import Options

if TYPE_CHECKING:  # a plan without stale targets does not need this module
    from formsheet.music.harp import Harp


@dataclass(frozen=True)
class Target:
    """One handout: its lesson, its folder, its parts and how they are made."""

    lesson: Path
    home: Path  # the lessons folder, where shelves are searched
    folder: Path  # of the handout
    parts: tuple[str, ...]  # names from `parts.PARTS`
    options: Options
    harp: Harp | None = None  # in place of the lesson's own

    @property
    def choices(self) -> str:
        """Harp and options as one text; equal choices give equal texts."""
        return f"{self.harp.name if self.harp else ''} {self.options}"
