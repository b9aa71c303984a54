"""Which of several nearly equal recasts a draft takes: those whose joins are the easiest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, pairwise, product, takewhile

from formsheet.arrange.cost import strain
from formsheet.lesson.model import Kind, Lick
from formsheet.music.tab import Tab
from formsheet.recast.trial import Tried

NEAR = 4  # bends that a recast may be worse than the best one, if its joins are easier
JOIN = 2  # bends that a join counts which takes all the time that it has
_MOST_WAYS = 3  # of one lick
_MOST_TRIED = 20_000  # combinations; further licks keep their best way
_SHORTEST = Fraction(1, 8)  # quarters: where a pick-up leaves no room, which `check` tells


@dataclass(frozen=True, slots=True)
class Way:
    """A lick as it may be played, and how it was recast; None where it is as it was."""

    lick: Lick
    tried: Tried | None

    @property
    def against(self) -> float:
        """In bends."""
        return self.tried.against if self.tried else 0.0


def near(ways: Sequence[Way]) -> list[Way]:
    """Those nearly as good as the first, the best."""
    good = takewhile(lambda way: way.against <= ways[0].against + NEAR, ways)
    return list(islice(good, _MOST_WAYS))


def easiest(parts: Sequence[Sequence[Way]], order: Sequence[int], bar: Fraction) -> list[Way]:
    """A way for each part, best together when they are played in order, round and round.

    `bar`: its length in quarters.
    """
    tried = 1
    open_parts = []
    for ways in parts:
        kept = ways if tried * len(ways) <= _MOST_TRIED else ways[:1]
        tried *= len(kept)
        open_parts.append(kept)
    joins = list(pairwise([*order, order[0]]))

    def against(together: Iterable[Way]) -> float:
        chosen = tuple(together)
        moves = sum(_join(chosen[a].lick, chosen[b].lick, bar) for a, b in joins)
        return sum(way.against for way in chosen) + JOIN * moves

    return list(min(product(*open_parts), key=against))


def _join(first: Lick, second: Lick, bar: Fraction) -> float:
    """What the move from one lick to the next costs, see `arrange.cost.strain`."""
    before, after = _struck(first, bar), _struck(second, bar)
    if not before or not after:
        return 0.0
    (last, tab), (start, target) = before[-1], after[0]
    gap = len(first.bars) * bar - last + start
    return strain(tab, target, max(gap, _SHORTEST))


def _struck(lick: Lick, bar: Fraction) -> list[tuple[Fraction, Tab]]:
    """Its notes by their places in quarters, its own first bar line being 0."""
    lead = () if lick.pickup_once else lick.pickup  # which no join leads into
    bars = [(-lick.pickup_length, lead), *((n * bar, m) for n, m in enumerate(lick.bars))]
    return [
        (start + mark.onset, mark.tab)
        for start, marks in bars
        for mark in marks
        if mark.kind is Kind.NOTE and mark.tab
    ]
