"""Plain names for the files of a pack: ASCII, lower case, unique on every system."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence

#: Names reserved for devices on Windows, whatever follows the dot; from memory.
_DEVICES = re.compile(r"con|prn|aux|nul|(com|lpt)\d")


def file_names(names: Iterable[str], endings: Sequence[str] = ("",)) -> list[str]:
    """A unique file name for each of these names; each is used with every one of `endings`."""
    taken: set[str] = set()
    found = []
    for name in names:
        plain = _plain(name)
        free, count = plain, 1
        while {free + ending for ending in endings} & taken:
            count += 1
            free = f"{plain}-{count}"
        taken |= {free + ending for ending in endings}
        found.append(free)
    return found


def _plain(name: str) -> str:
    """The name in ASCII letters, figures and hyphens; "lick" if nothing is left."""
    letters = unicodedata.normalize("NFKD", name.casefold()).encode("ascii", "ignore").decode()
    plain = re.sub(r"[^a-z0-9]+", "-", letters).strip("-") or "lick"
    return f"{plain}-lick" if _DEVICES.fullmatch(plain) else plain
