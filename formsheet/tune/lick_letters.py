"""Letters of licks: short names for one lesson, like the rehearsal marks of a printed part.

Licks have A to S and turnarounds T to Z, each in the order in which the tune first plays them. When
a series is used up it begins again with a number: A2 to S2 after S, T2 to Z2 after Z, then A3 and
T3. So a letter says by itself whether it is a turnaround. Licks of the lesson that are not played
come after, in the order of the lesson, so that they change no letter of those that are.

A letter is for the eye and the ear: another lick before it changes it. Links, names of files and
what a page keeps on a device use the lick's name.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count

from formsheet.lesson.model import Lick
from formsheet.tune.timeline import Tune

LICKS = "ABCDEFGHIJKLMNOPQRS"
TURNAROUNDS = "TUVWXYZ"


class LickLetters:
    """The letters of a tune's licks, and the bars in which each comes for the first time."""

    def __init__(self, tune: Tune) -> None:
        series = {False: _series(LICKS), True: _series(TURNAROUNDS)}
        first: dict[str, int] = {}
        played: dict[str, Lick] = {}
        for index, bar in enumerate(tune.bars):
            if bar.lick:
                first.setdefault(bar.lick.name, index)
                played.setdefault(bar.lick.name, bar.lick)
        self._first = frozenset(first.values())
        self._letters = {
            name: next(series[lick.turnaround])
            for name, lick in (played | tune.lesson.licks).items()
        }

    def of(self, lick: Lick | None) -> str:
        """The letter of a lick: "A"; "" for a rest."""
        return self._letters[lick.name] if lick else ""

    def first_time(self, index: int) -> bool:
        """Whether the lick of a bar comes there for the first time; `index` of the bar, from 0."""
        return index in self._first

    def titled(self, lick: Lick) -> str:
        """Letter and title, where letters are expected: "A, Front porch"."""
        return f"{self.of(lick)}, {lick.title}"

    def said(self, lick: Lick, *, title: bool = True) -> str:
        """The lick where nothing else says what the letter is: "lick A, Front porch"; "lick A"."""
        kind = "turnaround" if lick.turnaround else "lick"
        return f"{kind} {self.titled(lick) if title else self.of(lick)}"


def _series(letters: str) -> Iterator[str]:
    """The letters, and again with a number from 2 on, without an end."""
    yield from letters
    for number in count(2):
        for letter in letters:
            yield f"{letter}{number}"
