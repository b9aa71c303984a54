"""Put files into a handout's folder: all written as temporary files, then moved into place."""

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
    """Write the record of a handout."""
    write_whole(folder / RECORD, record.text().encode(), sync=sync)


def has_left_asides(folder: Path) -> bool:
    """Whether a folder holds temporary files, of a killed build or of one still running."""
    return any(map(is_aside, os.listdir(folder)))


def sweep(folder: Path) -> None:
    """Remove leftovers of a killed build; the caller holds the lock of the folder."""
    for name in filter(is_aside, os.listdir(folder)):
        (folder / name).unlink(missing_ok=True)


class Asides:
    """The new files of a handout, kept as temporary files until all are written."""

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
        """Remove the files that were not moved into place."""
        for temporary in self._asides.values():
            temporary.unlink(missing_ok=True)

    def add(self, name: str, data: bytes) -> None:
        """Write a new temporary file; `name` is a path relative to the folder, with `/`.

        ValueError where the name is absolute, leads out of the folder, or was added before.
        """
        path = PurePosixPath(name)
        if path.is_absolute() or ".." in path.parts or name in self._asides or not path.name:
            raise ValueError(f"a part of the pack makes a file called {name!r}")
        self._asides[name] = write_aside(self.folder, data)

    def put(self) -> list[Path]:
        """Move all files into place; returns their paths."""
        for name, temporary in self._asides.items():
            path = self.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            os.replace(temporary, path)
        placed = [self.folder / name for name in self._asides]
        self._asides = {}
        return placed


def remove(folder: Path, names: Iterable[str]) -> None:
    """Remove these files, and the folders left empty."""
    for name in names:
        path = folder / name
        path.unlink(missing_ok=True)
        for above in path.relative_to(folder).parents:
            if above != Path("."):
                _remove_empty(folder / above)


def remove_unborn(folder: Path) -> None:
    """Remove the folder of a handout that could not be made, unless it holds other files."""
    from filelock import FileLock, Timeout

    try:
        with FileLock(folder / LOCK, timeout=0):
            if not set(os.listdir(folder)) - {LOCK, RECORD}:
                remove(folder, [RECORD, LOCK])
        folder.rmdir()
    except (Timeout, OSError):
        return  # the folder does not exist or is not empty


def remove_empty(folder: Path, top: Path) -> None:
    """Remove a folder if it is empty, then each parent left empty, all below `top`."""
    for each in (folder, *folder.parents):
        if each == top or top not in each.parents:
            return
        _remove_empty(each)


def _remove_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        return  # the folder is not empty


def sync_folders(folders: Iterable[Path]) -> None:
    """Sync folder entries to the disk, on systems that can."""
    if os.name != "posix":
        return
    for folder in set(folders):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
