"""The lessons folder that is watched: which lessons and shelves lie in it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from formsheet.folder import files_below
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX

#: What tells that a file has changed: its size, when it was written, its number on the disk.
Stamp = tuple[int, int, int]


@dataclass(frozen=True)
class Found:
    """A lesson or a shelf of the folder."""

    name: str  # its path from the lessons folder, with `/`
    path: Path
    stamp: Stamp

    @property
    def is_lesson(self) -> bool:
        """Whether a handout is made of it; a shelf has none."""
        return self.name.endswith(LESSON_SUFFIX)


def files_in(home: Path) -> dict[str, Found]:
    """All lessons and shelves by name, in order of their names."""
    found = {}
    for name, entry in files_below(home, (LESSON_SUFFIX, SHELF_SUFFIX)):
        try:
            seen = entry.stat()
        except OSError:
            continue  # it has just gone
        found[name] = Found(name, home / name, (seen.st_size, seen.st_mtime_ns, seen.st_ino))
    return found
