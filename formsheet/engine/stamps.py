"""Whether a file is still the one that was seen: by its stamp where that is sure, else by its hash.

A stamp is what the file system says about a file. It is trusted only where the file had been
left alone for a while when its hash was noted: a change within the same tick of the clock would
not show.
"""

from __future__ import annotations

import os

#: Size in bytes, times of the last change to content and to the entry in ns, number of the entry.
Stamp = tuple[int, int, int, int]

_TICK_NS = 20_000_000  # of the clocks of file systems that write down parts of a second
_COARSE_TICK_NS = 2_000_000_000  # of the others
_SECOND_NS = 1_000_000_000
_CHUNK = 1 << 20


def stamp(path: str) -> Stamp | None:
    """The stamp of a file; None where there is none to be had."""
    try:
        found = os.stat(path)
    except (OSError, ValueError):
        return None
    return (found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino)


def settled(seen: Stamp, noted_ns: int) -> bool:
    """Whether a file with this stamp had been left alone when its hash was noted."""
    changed = max(seen[1], seen[2])
    tick = _TICK_NS if changed % _SECOND_NS else _COARSE_TICK_NS
    return changed < noted_ns - tick


def digest(path: str) -> str | None:
    """The hash of what a file holds; None where it cannot be read."""
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
    """The hash of some texts, each by itself: moving a letter from one to the next changes it."""
    from hashlib import sha256

    found = sha256()
    for text in texts:
        data = text.encode("utf-8", "surrogateescape")
        found.update(b"%d:" % len(data) + data)
    return found.hexdigest()
