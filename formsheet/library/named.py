"""Look up a lick, a rhythm or a shelf by name, optionally with its file."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from formsheet.library.usage import Home, Library


class What(Enum):
    """The kinds of thing that have a name."""

    LICK = "the lick"
    RHYTHM = "the rhythm"
    FILE = "the file"


@dataclass(frozen=True)
class Named:
    """Something in a library that has a name, and the licks that change when it is edited."""

    what: What
    home: Home  # of a file: without a name
    licks: tuple[Home, ...]


def named(library: Library, words: str) -> list[Named]:
    """Everything of that name: `home`, `turnarounds`, `turnarounds:home`."""
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
    """Whether words name a file: by path, by name, or without its suffix; "" means any file."""
    return words in ("", path, Path(path).name, Path(path).stem)


def known(library: Library) -> list[str]:
    """Every name, for finding the nearest one to a misspelled name."""
    homes = (*library.licks, *library.rhythms)
    return sorted({home.name for home in homes} | {Path(name).stem for name in library.files})
