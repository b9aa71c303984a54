"""The lessons folder that is watched: which lessons and shelves lie in it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

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
    """All lessons and shelves by name, in order of their names.

    Hidden files and folders are left out (editors put their own there), and so is what a link
    names outside the folder.
    """
    root = os.path.realpath(home)
    found = sorted(_stamps(home, "", root))
    return {name: Found(name, home / name, stamp) for name, stamp in found}


def _stamps(folder: Path, before: str, root: str) -> Iterator[tuple[str, Stamp]]:
    try:
        entries = list(os.scandir(folder))
    except OSError:
        return  # it has just gone, or may not be read
    for entry in entries:
        if entry.name.startswith("."):
            continue
        if entry.is_dir(follow_symlinks=False):
            yield from _stamps(Path(entry.path), f"{before}{entry.name}/", root)
        elif entry.name.endswith((LESSON_SUFFIX, SHELF_SUFFIX)) and (stamp := _stamp(entry, root)):
            yield before + entry.name, stamp


def _stamp(entry: os.DirEntry[str], root: str) -> Stamp | None:
    """The stamp of a file; None for what is none, or lies elsewhere."""
    try:
        if not entry.is_file():
            return None
        seen = entry.stat()
    except OSError:
        return None
    if entry.is_symlink() and not Path(os.path.realpath(entry.path)).is_relative_to(root):
        return None
    return seen.st_size, seen.st_mtime_ns, seen.st_ino
