"""What a harp can sound, and the best tab of a short line, worked out without the search."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from formsheet.arrange.choices import Choice, joined
from formsheet.arrange.cost import Cost
from formsheet.arrange.sounds import Sound

# Semitones above hole 1 blow: OEIS A291810; Wikipedia, "Richter-tuned harmonica".
BLOW = (0, 4, 7, 12, 16, 19, 24, 28, 31, 36)
DRAW = (2, 7, 11, 14, 17, 21, 23, 26, 29, 33)


def playable(lowest: int) -> set[int]:
    """MIDI numbers of a Richter harp's single notes, bends included and overbends not.

    A hole sounds both its reeds and all between them: Bahnson, Antaki, Beery, JASA 103 (1998) 2134.
    """
    return {
        lowest + step
        for blow, draw in zip(BLOW, DRAW, strict=True)
        for step in range(min(blow, draw), max(blow, draw) + 1)
        if step != min(blow, draw) or step in (blow, draw)
    }


def best_cost(line: Sequence[Sound], options: Sequence[Sequence[Choice]]) -> Cost:
    """The least cost of a line over every combination of choices."""
    return min(_cost(line, each) for each in product(*options))


def _cost(line: Sequence[Sound], choices: Sequence[Choice]) -> Cost:
    total = choices[0].cost
    for sound, before, here in zip(line[1:], choices, choices[1:], strict=False):
        total = total.plus(joined(before, here, sound.gap)).plus(here.cost)
    return total
