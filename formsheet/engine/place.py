"""Files put into a handout's folder: all written aside, then moved into place."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from formsheet.engine.record import RECORD, Record
from formsheet.whole import is_aside, write_aside, write_whole

if TYPE_CHECKING:
    from types import TracebackType

LOCK = ".formsheet.lock"


def write_record(folder: Path, record: Record, *, sync: bool = True) -> None:
    """Put a handout's record in place."""
    write_whole(folder / RECORD, record.text().encode(), sync=sync)


def has_left_asides(folder: Path) -> bool:
    """Whether a killed build, or one at work, has files of its own in a folder."""
    return any(map(is_aside, os.listdir(folder)))


def sweep(folder: Path) -> None:
    """Remove what a killed build has left; nobody else may be building there."""
    for name in filter(is_aside, os.listdir(folder)):
        (folder / name).unlink(missing_ok=True)


class Asides:
    """The new files of a handout, written aside until all of them are there."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._asides: dict[str, Path] = {}

    def __enter__(self) -> Asides:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Whatever was not put in place is thrown away."""
        for aside in self._asides.values():
            aside.unlink(missing_ok=True)

    def add(self, name: str, data: bytes) -> None:
        """Write a new file aside. A name is a path below the folder, with `/`."""
        path = PurePosixPath(name)
        if path.is_absolute() or ".." in path.parts or name in self._asides or not path.name:
            raise ValueError(f"a part of the pack makes a file called {name!r}")
        self._asides[name] = write_aside(self.folder, data)

    def put(self) -> list[Path]:
        """Move all of them into place."""
        for name, aside in self._asides.items():
            path = self.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            os.replace(aside, path)
        placed = [self.folder / name for name in self._asides]
        self._asides = {}
        return placed


def remove(folder: Path, names: Iterable[str]) -> None:
    """Remove files of ours, and the folders that this leaves empty."""
    for name in names:
        path = folder / name
        path.unlink(missing_ok=True)
        for above in path.relative_to(folder).parents:
            if above != Path("."):
                _remove_empty(folder / above)


def remove_unborn(folder: Path) -> None:
    """Remove the folder of a handout of which nothing was made, if all in it is the engine's."""
    from filelock import FileLock, Timeout

    try:
        with FileLock(folder / LOCK, timeout=0):
            if not set(os.listdir(folder)) - {LOCK, RECORD}:
                remove(folder, [RECORD, LOCK])
        folder.rmdir()
    except (Timeout, OSError):
        return  # it was never there, or something else lies in it


def remove_empty(folder: Path, top: Path) -> None:
    """Remove a folder if it is empty, and those above it that this leaves empty, below `top`."""
    for each in (folder, *folder.parents):
        if each == top or top not in each.parents:
            return
        _remove_empty(each)


def _remove_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        return  # something else lies in it


def sync_folders(folders: Iterable[Path]) -> None:
    """Make the entries of folders last, where the system can do that."""
    if os.name != "posix":
        return
    for folder in set(folders):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
