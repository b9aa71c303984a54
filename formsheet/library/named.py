"""Names of a library as one types them: a lick, a rhythm, a shelf, perhaps with its file."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from formsheet.library.usage import Home, Library


class What(Enum):
    """What may be edited."""

    LICK = "the lick"
    RHYTHM = "the rhythm"
    FILE = "the file"


@dataclass(frozen=True)
class Named:
    """Something of a library, and the licks that are other when it is edited."""

    what: What
    home: Home  # of a file: without a name
    licks: tuple[Home, ...]


def named(library: Library, words: str) -> list[Named]:
    """All that bears a name: `home`, `turnarounds`, `turnarounds:home`."""
    file, _, name = words.rpartition(":")
    found = [
        Named(What.LICK, home, (home,))
        for home in library.licks
        if home.name == name and _is_file(home.file, file)
    ]
    found += [
        Named(What.RHYTHM, home, tuple(licks))
        for home, licks in library.rhythms.items()
        if home.name == name and _is_file(home.file, file)
    ]
    found += [
        Named(What.FILE, Home(each, ""), tuple(h for h in library.licks if h.file == each))
        for each in library.files
        if not file and _is_file(each, words)
    ]
    return found


def _is_file(path: str, words: str) -> bool:
    """Whether a file is meant by its path, its name, or its name without the ending; "" is any."""
    return words in ("", path, Path(path).name, Path(path).stem)


def known(library: Library) -> list[str]:
    """Every name, for the nearest one to a slip."""
    homes = (*library.licks, *library.rhythms)
    return sorted({home.name for home in homes} | {Path(name).stem for name in library.files})
