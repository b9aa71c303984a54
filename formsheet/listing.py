"""Lists of things and of bar numbers in words, the same in every message."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

_SHORTEST_RANGE = 3  # numbers written as "1-3"; two are written one by one


def listed(items: Sequence[str], last: str) -> str:
    """ "a", "a or b", "a, b or c"."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def runs(numbers: Sequence[int]) -> list[list[int]]:
    """Sorted numbers grouped into runs of consecutive ones: 1, 2, 3, 7 is [1, 2, 3], [7]."""
    found = groupby(enumerate(numbers), lambda pair: pair[1] - pair[0])
    return [[number for _, number in run] for _, run in found]


def run_words(numbers: Sequence[int]) -> list[str]:
    """Sorted numbers, runs of three or more written as a range: "1-4", "7", "8", "11"."""
    words: list[str] = []
    for run in runs(numbers):
        long = len(run) >= _SHORTEST_RANGE
        words += [f"{run[0]}-{run[-1]}"] if long else map(str, run)
    return words


def bars_words(numbers: Sequence[int]) -> str:
    """Bar numbers in words: "bar 5", "bars 5, 6 and 10", "bars 1-4, 7, 8 and 11"."""
    return f"{'bar' if len(numbers) == 1 else 'bars'} {listed(run_words(numbers), 'and')}"
