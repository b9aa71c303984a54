"""Atomic writes: a temporary file is written and synced, then moved into place.

Temporary files have a recognisable name, so that leftovers of a killed build can be removed.
"""

from __future__ import annotations

import os
from pathlib import Path

_MODE = 0o644  # permissions of a new file
_ASIDE_START, _ASIDE_END = ".formsheet-", ".part"


def is_aside(name: str) -> bool:
    """Whether a file name is that of a temporary file made by formsheet."""
    return name.startswith(_ASIDE_START) and name.endswith(_ASIDE_END)


def write_aside(folder: Path, data: bytes, *, mode: int = _MODE, sync: bool = True) -> Path:
    """Write a temporary file in an existing folder; `sync` waits until it is on the disk."""
    import tempfile

    handle, name = tempfile.mkstemp(dir=folder, prefix=_ASIDE_START, suffix=_ASIDE_END)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            if sync:
                os.fsync(file.fileno())
        os.chmod(name, mode)
    except BaseException as caught:
        os.unlink(name)
        if isinstance(caught, OSError):  # a full disk does not say which
            caught.filename = str(folder)
        raise
    return Path(name)


def write_whole(path: Path, data: bytes, *, sync: bool = True) -> Path:
    """Write or replace a file atomically; an existing file keeps its permissions.

    Missing folders are made. OSError where the file cannot be written; the old one then remains.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    mode = path.stat().st_mode & 0o777 if path.exists() else _MODE
    temporary = write_aside(path.parent, data, mode=mode, sync=sync)
    try:
        os.replace(temporary, path)
    except BaseException:
        temporary.unlink()
        raise
    return path
