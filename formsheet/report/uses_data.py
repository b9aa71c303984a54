"""What a folder of lessons defines and uses, as data; `schemas/uses.json` is its schema."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.lesson.asked import asked_words
from formsheet.library.likeness import Alike
from formsheet.library.usage import Home, Library, LickEntry


def uses_data(library: Library, groups: Sequence[Alike]) -> dict[str, Any]:
    """The whole library and its groups of similar licks."""
    return {
        "files": library.files,
        "broken": library.broken,
        "shelves": [
            {"file": file, "used_by": [{"file": taker, "names": names}
                                       for taker, names in sorted(takers.items())]}
            for file, takers in sorted(library.shelves.items())
        ],
        "licks": [_lick_data(entry) for entry in library.licks.values()],
        "rhythms": [
            _home_data(home) | {"licks": list(map(_home_data, licks))}
            for home, licks in library.rhythms.items()
        ],
        "alike": [
            {"how": group.likeness.value, "licks": list(map(_home_data, group.licks))}
            for group in groups
        ],
    }  # fmt: skip


def _lick_data(entry: LickEntry) -> dict[str, Any]:
    return _home_data(entry.home) | {
        "title": entry.lick.title,
        "on": list(map(asked_words, entry.lick.on)),
        "rhythm": _home_data(entry.rhythm) if entry.rhythm else None,
        "played": entry.played,
        "uses": [
            {"lesson": use.lesson, "names": list(use.names),
             "bars": [{"chorus": chorus, "bar": bar} for chorus, bar in use.bars]}
            for use in entry.uses
        ],
    }  # fmt: skip


def _home_data(home: Home) -> dict[str, str]:
    return {"file": home.file, "name": home.name}
