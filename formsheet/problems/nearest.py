"""The known name nearest to a misspelt one."""

from __future__ import annotations

from collections.abc import Iterable

_CLOSE_ENOUGH = 0.6
_MOST_COMPARED = 500  # names; among more, only a beginning is looked for, which is quick
_SHORTEST_BEGINNING = 3  # letters that tell which name was begun


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name most like `word`, or None where nothing is close."""
    from difflib import get_close_matches  # 10 ms to import, and only mistakes need it

    by_folded = {name.casefold(): name for name in known}
    folded = word.casefold().rstrip(":")
    begun = [name for name in by_folded if name.startswith(folded)]
    if begun and len(folded) >= _SHORTEST_BEGINNING:
        return by_folded[min(begun, key=lambda name: name != folded)]
    if len(by_folded) > _MOST_COMPARED:
        return None
    close = get_close_matches(folded, by_folded, n=1, cutoff=_CLOSE_ENOUGH)
    return by_folded[close[0]] if close else None
