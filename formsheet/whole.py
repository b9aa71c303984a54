"""Files written whole or not at all: aside first, synced, then moved into place.

What is written aside bears a name of our own, so that what is left by one who was killed is known
and can be swept up.
"""

from __future__ import annotations

import os
from pathlib import Path

_MODE = 0o644  # of a new file
_ASIDE_START, _ASIDE_END = ".formsheet-", ".part"


def is_aside(name: str) -> bool:
    """Whether a file's name is a passing one of ours."""
    return name.startswith(_ASIDE_START) and name.endswith(_ASIDE_END)


def write_aside(folder: Path, data: bytes, *, mode: int = _MODE, sync: bool = True) -> Path:
    """Write a file under a passing name of ours in a folder that is there."""
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
    """Put a file in place whole; one that was there keeps its permissions."""
    path.parent.mkdir(parents=True, exist_ok=True)
    mode = path.stat().st_mode & 0o777 if path.exists() else _MODE
    aside = write_aside(path.parent, data, mode=mode, sync=sync)
    try:
        os.replace(aside, path)
    except BaseException:
        aside.unlink()
        raise
    return path
