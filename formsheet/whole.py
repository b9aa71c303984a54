"""Files written whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

_MODE = 0o644  # of a new file


def write_whole(path: Path, data: bytes) -> Path:
    """Write a file aside and put it in place whole; a file that was there keeps its permissions."""
    path.parent.mkdir(parents=True, exist_ok=True)
    mode = path.stat().st_mode & 0o777 if path.exists() else _MODE
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(aside, mode)
        os.replace(aside, path)
    except BaseException:
        os.unlink(aside)
        raise
    return path
