"""The lessons and shelves in the watched folder."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from formsheet.folder import files_below
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX

#: Size, time of the last change in ns, and inode; a change of any means a changed file.
Stamp = tuple[int, int, int]


@dataclass(frozen=True)
class Found:
    """A lesson or a shelf of the folder."""

    name: str  # path relative to the lessons folder, with `/`
    path: Path
    stamp: Stamp

    @property
    def is_lesson(self) -> bool:
        """Whether it is a lesson; a shelf has no handout."""
        return self.name.endswith(LESSON_SUFFIX)


def files_in(home: Path) -> dict[str, Found]:
    """All lessons and shelves by name, sorted."""
    found = {}
    for name, entry in files_below(home, (LESSON_SUFFIX, SHELF_SUFFIX)):
        try:
            seen = entry.stat()
        except OSError:
            continue  # just removed
        found[name] = Found(name, home / name, (seen.st_size, seen.st_mtime_ns, seen.st_ino))
    return found
