"""Whether a file is unchanged: by its stamp where that is certain, else by its hash.

A stamp is what the file system reports about a file. It is trusted only if the last change was at
least a clock tick before the hash was recorded: two changes within a tick have the same stamp.
"""

from __future__ import annotations

import os

#: Size in bytes, times of the last change to content and to the entry in ns, number of the entry.
Stamp = tuple[int, int, int, int]

_TICK_NS = 20_000_000  # clock tick of file systems that record fractions of a second
_COARSE_TICK_NS = 2_000_000_000  # clock tick of the others
_SECOND_NS = 1_000_000_000
_CHUNK = 1 << 20


def stamp(path: str) -> Stamp | None:
    """The stamp of a file; None where the file system has none (no such file, no access)."""
    try:
        found = os.stat(path)
    except (OSError, ValueError):
        return None
    return (found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino)


def settled(seen: Stamp, noted_ns: int) -> bool:
    """Whether a file with this stamp was last changed more than a tick before `noted_ns`."""
    changed = max(seen[1], seen[2])
    tick = _TICK_NS if changed % _SECOND_NS else _COARSE_TICK_NS
    return changed < noted_ns - tick


def digest(path: str) -> str | None:
    """The SHA-256 of a file's content in hex; None where it cannot be read."""
    from hashlib import sha256  # takes longer to import than to look at a hundred files

    found = sha256()
    try:
        with open(path, "rb") as file:
            while chunk := file.read(_CHUNK):
                found.update(chunk)
    except (OSError, ValueError):
        return None
    return found.hexdigest()


def digest_of(*texts: str) -> str:
    """The SHA-256 of several texts in hex; where one text ends and the next begins counts too."""
    from hashlib import sha256

    found = sha256()
    for text in texts:
        data = text.encode("utf-8", "surrogateescape")
        found.update(b"%d:" % len(data) + data)
    return found.hexdigest()
