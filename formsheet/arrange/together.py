"""The best tab of several lines that lead into each other: licks with their joins.

Each line is searched alone first. Then one line after another is searched anew, with the moves to
and from the notes that the others have now, until none becomes better. A line that leads into its
own start is searched for each tab that its start may have.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import NamedTuple

from formsheet.arrange.choices import Choice, joined, sound_choices
from formsheet.arrange.cost import Cost
from formsheet.arrange.search import Laid, best_line, lay, moves_of
from formsheet.arrange.sounds import Line
from formsheet.judge.joins import JoinedMarks
from formsheet.music.harp import Harp

#: A line is given another tab only if that saves more than rounding of `Cost.strain`.
_ROUNDING = 1e-9
#: Most times round all lines; with each, something has become better.
_MOST_ROUNDS = 20


class _Place(NamedTuple):
    """A sound of a line."""

    line: int
    sound: int


class _Join(NamedTuple):
    """A move from a sound to another: the end of a line and the start of the next."""

    last: _Place
    first: _Place
    gap: Fraction  # quarters from onset to onset


@dataclass(frozen=True)
class Together:
    """Lines with their tab."""

    laid: tuple[Laid, ...]
    cost: Cost  # of all lines and joins


def lay_together(
    lines: Sequence[Line], harp: Harp, overbends: bool, joins: Sequence[JoinedMarks] = ()
) -> Together:
    """The best tab of lines at their pitch; `joins`: the marks in which they meet."""
    search = _Search(lines, harp, overbends, list(_joins(lines, joins)))
    laid = search.settled([lay(line, harp, overbends) for line in lines])
    return Together(tuple(laid), search.cost(laid))


def _joins(lines: Sequence[Line], joins: Sequence[JoinedMarks]) -> Iterator[_Join]:
    """The joins of which both marks are in the lines."""
    firsts: dict[object, _Place] = {}
    lasts: dict[object, _Place] = {}
    for number, line in enumerate(lines):
        for index, sound in enumerate(line):
            firsts.setdefault(sound.mark, _Place(number, index))
            lasts[sound.mark] = _Place(number, index)
    for join in joins:
        if join.last in lasts and join.first in firsts:
            yield _Join(lasts[join.last], firsts[join.first], join.gap)


class _Search:
    def __init__(
        self, lines: Sequence[Line], harp: Harp, overbends: bool, joins: Sequence[_Join]
    ) -> None:
        self.lines = lines
        self.joins = joins
        self.options = [[sound_choices(sound, harp, overbends) for sound in line] for line in lines]

    def cost(self, laid: Sequence[Laid]) -> Cost:
        """The cost of all lines and joins."""
        total = Cost()
        for each in laid:
            total = total.plus(each.cost)
        for join in self.joins:
            last, first = (laid[at.line].choices[at.sound] for at in (join.last, join.first))
            total = total.plus(joined(last, first, join.gap))
        return total

    def settled(self, laid: list[Laid]) -> list[Laid]:
        """The lines after as many changes as make them better."""
        involved = sorted({at.line for join in self.joins for at in (join.last, join.first)})
        for _ in range(_MOST_ROUNDS):
            changed = False
            for number in involved:
                trial = [*laid]
                trial[number] = self._anew(number, laid)
                if _less(self.cost(trial), self.cost(laid)):
                    laid, changed = trial, True
            if not changed:
                break
        return laid

    def _anew(self, number: int, laid: Sequence[Laid]) -> Laid:
        """The best tab of one line while the others stay."""
        own = [j for j in self.joins if {j.last.line, j.first.line} == {number}]
        starts = sorted({join.first.sound for join in own})
        found = [
            self._with_starts(number, laid, dict(zip(starts, choices, strict=True)))
            for choices in product(*(self.options[number][at] for at in starts))
        ]
        _, laid_anew = min(found, key=lambda each: each[0])
        return laid_anew

    def _with_starts(
        self, number: int, laid: Sequence[Laid], starts: dict[int, Choice]
    ) -> tuple[Cost, Laid]:
        """The best tab of a line of which some sounds are decided: those that it leads back to."""
        line = self.lines[number]
        options = [
            (starts[at],) if at in starts else each for at, each in enumerate(self.options[number])
        ]
        outer = self._outer(number, laid, starts)

        def outside(index: int, choice: Choice) -> Cost:
            total = Cost()
            for other, gap, leads in outer.get(index, ()):
                pair = (choice, other) if leads else (other, choice)
                total = total.plus(joined(*pair, gap))
            return total

        cost, choices = best_line(line, options, moves_of(line), outside)
        alone = _alone(line, choices)
        return cost, Laid(line, choices, alone)

    def _outer(
        self, number: int, laid: Sequence[Laid], starts: dict[int, Choice]
    ) -> dict[int, list[tuple[Choice, Fraction, bool]]]:
        """For sounds of a line: the choice that each meets, the time, whether it leads there."""
        found = defaultdict(list)
        for join in self.joins:
            last, first = join.last, join.first
            if last.line == number:
                other = (
                    starts[first.sound]
                    if first.line == number
                    else laid[first.line].choices[first.sound]
                )
                found[last.sound].append((other, join.gap, True))
            elif first.line == number:
                found[first.sound].append((laid[last.line].choices[last.sound], join.gap, False))
        return found


def _alone(line: Line, choices: Sequence[Choice]) -> Cost:
    """The cost of a line without its joins."""
    step, total = moves_of(line), Cost()
    for index, choice in enumerate(choices):
        total = total.plus(choice.cost)
        if index:
            total = total.plus(step(index, choices[index - 1], choice))
    return total


def _less(one: Cost, other: Cost) -> bool:
    if one[:3] != other[:3]:
        return one[:3] < other[:3]
    return one.strain < other.strain - _ROUNDING
