"""The known name nearest to a misspelt one."""

from __future__ import annotations

from collections.abc import Iterable

_CLOSE_ENOUGH = 0.6


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name most like `word`, or None where nothing is close."""
    from difflib import get_close_matches  # 10 ms to import, and only mistakes need it

    by_folded = {name.casefold(): name for name in known}
    close = get_close_matches(word.casefold(), by_folded, n=1, cutoff=_CLOSE_ENOUGH)
    return by_folded[close[0]] if close else None
