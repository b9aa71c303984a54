"""What is to be made of one lesson: for which harp, with which options, into which folder."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.pack.options import Options

if TYPE_CHECKING:  # a plan in which nothing has changed needs no harp
    from formsheet.music.harp import Harp


@dataclass(frozen=True)
class Target:
    """One handout: a lesson of a lessons folder, and where and how its parts are made."""

    lesson: Path
    home: Path  # the lessons folder, whose shelves the lesson takes from
    folder: Path  # of the handout
    parts: tuple[str, ...]  # names from `pack.parts.PARTS`
    options: Options
    harp: Harp | None = None  # in place of the lesson's own

    @property
    def choices(self) -> str:
        """All that was chosen for this handout, as one text; the same choices give the same."""
        return f"{self.harp.name if self.harp else ''} {self.options}"
