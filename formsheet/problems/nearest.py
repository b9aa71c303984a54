"""The known name nearest to a misspelt one."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable
from functools import cached_property
from itertools import takewhile

_CLOSE_ENOUGH = 0.6
_NEARLY_ALIKE = 0.8
_MOST_COMPARED = 500  # names; among more, only a beginning is looked for, which is quick
_MOST_BEGUN = 50  # names that begin alike and are weighed
_SHORTEST_BEGINNING = 3  # letters that tell which name was begun
_NUMBERED = r"(\d{1,4})(?!\d)[\W_]*(.*)"  # "12-bar standard", "12bar": a number, and the rest
_LEAST_SHARED = 2  # letters after its number that a name shares with a word
_LONGEST_COMPARED = 100  # letters of a misspelt word
#: Pairs of names that are compared for one file: far more than mistakes that anybody mends at
#: once. Without an end to it, a file of nothing but mistakes would take minutes.
_MOST_PAIRS = 20_000


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name most like `word`, or None where nothing is close."""
    return Names(known).nearest(word)


class Names:
    """Known names, among which one misspelt word after another is looked for."""

    def __init__(self, known: Iterable[str]) -> None:
        self._known = tuple(known)
        self._pairs_left = _MOST_PAIRS

    @cached_property
    def listed(self) -> list[str]:
        """All of them, from A to Z."""
        return sorted(self._known)

    @cached_property
    def _by_folded(self) -> dict[str, str]:
        return {name.casefold(): name for name in self._known}

    @cached_property
    def _places(self) -> dict[str, int]:
        return {name: place for place, name in enumerate(self._by_folded)}

    @cached_property
    def _folded(self) -> list[str]:
        return sorted(self._by_folded)

    def nearest(self, word: str) -> str | None:
        """The name most like `word`, or None where nothing is close."""
        folded = word.casefold().rstrip(":")
        if begun := self._begun(folded):
            return begun
        if numbered := re.fullmatch(_NUMBERED, folded):
            return self._of_number(*numbered.groups())
        self._pairs_left -= len(self._by_folded)
        if len(self._by_folded) > _MOST_COMPARED or self._pairs_left < 0:
            return None
        from difflib import get_close_matches  # 10 ms to import, and only mistakes need it

        close = get_close_matches(
            folded[:_LONGEST_COMPARED], self._by_folded, n=1, cutoff=_CLOSE_ENOUGH
        )
        return self._by_folded[close[0]] if close else None

    def _begun(self, folded: str) -> str | None:
        """The name that is meant by its beginning: the very name, or the first that begins so."""
        if len(folded) < _SHORTEST_BEGINNING:
            return None
        at = bisect_left(self._folded, folded)
        begun = [n for n in self._folded[at : at + _MOST_BEGUN] if n.startswith(folded)]
        if not begun:
            return None
        first = min(begun, key=lambda name: (name != folded, self._places[name]))
        return self._by_folded[first]

    @cached_property
    def _by_number(self) -> dict[str, dict[str, str]]:
        """The names that begin with a number: number -> what follows it -> name."""
        by_number: dict[str, dict[str, str]] = {}
        for name in self._known:
            if found := re.fullmatch(_NUMBERED, name.casefold()):
                by_number.setdefault(found[1], {}).setdefault(_spaced(found[2]), name)
        return by_number

    def _of_number(self, number: str, rest: str) -> str | None:
        """The name meant by a word that begins with a number: 12 bars are never meant by 16.

        The first name that begins so; else the one with most of the words; else one nearly alike;
        else the first that begins most alike.
        """
        known = self._by_number.get(number, {})
        rest = _spaced(rest[:_LONGEST_COMPARED])
        if begun := next((known[name] for name in known if name.startswith(rest)), None):
            return begun
        self._pairs_left -= len(known)
        if len(known) > _MOST_COMPARED or self._pairs_left < 0:
            return None
        words = set(rest.split())
        if within := [name for name in known if words.issuperset(name.split())]:
            return known[max(within, key=len)]
        from difflib import get_close_matches

        if close := get_close_matches(rest, known, n=1, cutoff=_NEARLY_ALIKE):
            return known[close[0]]
        shared = {name: _shared(name, rest) for name in known}
        best = max(known, key=lambda name: shared[name], default="")
        return known[best] if shared.get(best, 0) >= _LEAST_SHARED else None


def _spaced(words: str) -> str:
    """A name with one space between its words, whatever separates them."""
    return " ".join(re.split(r"[\W_]+", words))


def _shared(one: str, other: str) -> int:
    """Letters with which two names begin alike, the space after a word not counted."""
    pairs = takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False))
    return len("".join(letter for letter, _ in pairs).rstrip())
