"""The best tab of a line at its pitch: dynamic programming over all choices for each note.

The state is the choice of the last note; a line's cost is the sum of its notes' and its moves'
costs, compared in order (`cost.Cost`), so the best way to each choice is found from the best ways
to the choices before it, and nothing is decided greedily.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from formsheet.arrange.choices import Choice, joined, sound_choices
from formsheet.arrange.cost import Cost
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.sounds import Line
from formsheet.music.harp import Harp


@dataclass(frozen=True)
class Laid:
    """A line with a choice for each of its sounds."""

    line: Line  # as wanted, moved to its octave
    choices: tuple[Choice, ...]
    cost: Cost

    @property
    def missing(self) -> tuple[int, ...]:
        """Indices of the sounds that the harp does not have."""
        return tuple(i for i, each in enumerate(self.choices) if each.kept is Kept.STAND_IN)

    @property
    def replaced(self) -> tuple[int, ...]:
        """Indices of the chords that are changed."""
        kinds = (Kept.EXACT, Kept.STAND_IN)
        return tuple(i for i, each in enumerate(self.choices) if each.kept not in kinds)


def lay(line: Line, harp: Harp, overbends: bool = False) -> Laid:
    """The best tab of a line at its pitch.

    Sounds of one written mark (in a repeated group) get the same tab: if the best line gives them
    two, the one that is better for all of them is used, mark by mark.
    """
    options = [sound_choices(sound, harp, overbends) for sound in line]
    cost, found = best_line(line, options, moves_of(line))
    return Laid(line, found, cost)


#: Cost of the move to the sound of an index, from one choice to another.
Step = Callable[[int, Choice, Choice], Cost]


def moves_of(line: Line) -> Step:
    """The cost of the moves of a line."""
    return lambda index, last, here: joined(last, here, line[index].gap)


#: Cost of a choice for the sound of an index because of what lies outside the line.
Outside = Callable[[int, Choice], Cost]


def best_line(
    line: Line,
    options: Sequence[tuple[Choice, ...]],
    step: Step,
    outside: Outside = lambda _index, _choice: Cost(),
) -> tuple[Cost, tuple[Choice, ...]]:
    """The best choice for each sound, with one tab for all sounds of a mark; and the cost."""
    while True:
        cost, found = _best(options, step, outside)
        split = _split_mark(line, found)
        if split is None:
            return cost, found
        options = _united(line, options, split, step, outside)


def _best(
    options: Sequence[tuple[Choice, ...]], step: Step, outside: Outside
) -> tuple[Cost, tuple[Choice, ...]]:
    if not options:
        return Cost(), ()
    costs = [choice.cost.plus(outside(0, choice)) for choice in options[0]]
    ways: list[list[int]] = []  # for each later sound, the best choice before each of its choices
    for index, (before, here) in enumerate(pairwise(options), start=1):
        reached = [
            min(
                (cost.plus(step(index, last, choice)), at)
                for at, (cost, last) in enumerate(zip(costs, before, strict=True))
            )
            for choice in here
        ]
        ways.append([at for _, at in reached])
        costs = [
            cost.plus(choice.cost).plus(outside(index, choice))
            for (cost, _), choice in zip(reached, here, strict=True)
        ]
    total, at = min((cost, at) for at, cost in enumerate(costs))
    path = [at]
    for way in reversed(ways):
        path.append(way[path[-1]])
    found = tuple(each[at] for each, at in zip(options, reversed(path), strict=True))
    return total, found


def _split_mark(line: Line, found: Sequence[Choice]) -> Hashable:
    """A mark whose sounds have different tabs, or None."""
    first: dict[Hashable, Choice] = {}
    for sound, choice in zip(line, found, strict=True):
        if sound.mark is not None and first.setdefault(sound.mark, choice).tab != choice.tab:
            return sound.mark
    return None


def _united(
    line: Line,
    options: Sequence[tuple[Choice, ...]],
    mark: Hashable,
    step: Step,
    outside: Outside,
) -> list[tuple[Choice, ...]]:
    """The options, restricted for one mark to the tab that is best for all its sounds."""
    at = next(index for index, sound in enumerate(line) if sound.mark == mark)
    pairs = list(zip(line, options, strict=True))
    trials = [
        [(choice,) if sound.mark == mark else each for sound, each in pairs]
        for choice in options[at]
    ]
    return min(trials, key=lambda trial: _best(trial, step, outside)[0])
