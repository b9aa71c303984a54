"""Files put into a handout's folder: written aside, synced, and moved into place whole.

What is written aside bears a name of our own, so that what a killed build leaves is known and
swept up by the next one.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from formsheet.engine.record import RECORD, Record

if TYPE_CHECKING:
    from types import TracebackType

LOCK = ".formsheet.lock"
_ASIDE_START, _ASIDE_END = ".formsheet-", ".part"


def write_aside(folder: Path, data: bytes, *, sync: bool = True) -> Path:
    """Write a file of our own under a passing name in a folder that is there."""
    import tempfile

    handle, name = tempfile.mkstemp(dir=folder, prefix=_ASIDE_START, suffix=_ASIDE_END)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            if sync:
                os.fsync(file.fileno())
        os.chmod(name, 0o644)
    except BaseException:
        os.unlink(name)
        raise
    return Path(name)


def write_whole(path: Path, data: bytes, *, sync: bool = True) -> None:
    """Put one file in place whole, in a folder that is there."""
    aside = write_aside(path.parent, data, sync=sync)
    try:
        os.replace(aside, path)
    except BaseException:
        aside.unlink()
        raise


def write_record(folder: Path, record: Record, *, sync: bool = True) -> None:
    """Put a handout's record in place."""
    write_whole(folder / RECORD, record.text().encode(), sync=sync)


def has_left_asides(folder: Path) -> bool:
    """Whether a killed build, or one at work, has files of its own in a folder."""
    return any(n.startswith(_ASIDE_START) and n.endswith(_ASIDE_END) for n in os.listdir(folder))


def sweep(folder: Path) -> None:
    """Remove what a killed build has left; nobody else may be building there."""
    for left in folder.glob(f"{_ASIDE_START}*{_ASIDE_END}"):
        left.unlink(missing_ok=True)


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
