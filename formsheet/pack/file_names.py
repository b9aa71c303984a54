"""Plain names for the files of a pack: ASCII, lower case, no two alike on any system."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence

#: Names that one common system keeps for devices, whatever follows the dot; from memory.
_DEVICES = re.compile(r"con|prn|aux|nul|(com|lpt)\d")


def file_names(names: Iterable[str], endings: Sequence[str] = ("",)) -> list[str]:
    """A name for each of these; files are made of it by each of the endings."""
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
    """ASCII letters, figures and hyphens; "lick" where nothing of it is left."""
    letters = unicodedata.normalize("NFKD", name.casefold()).encode("ascii", "ignore").decode()
    plain = re.sub(r"[^a-z0-9]+", "-", letters).strip("-") or "lick"
    return f"{plain}-lick" if _DEVICES.fullmatch(plain) else plain
