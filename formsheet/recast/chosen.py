"""Choose among nearly equal recasts for a draft: those with the easiest joins."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, pairwise, product, takewhile

from formsheet.arrange.cost import strain
from formsheet.lesson.model import Kind, Lick
from formsheet.music.tab import Tab
from formsheet.recast.offered import AsItIs
from formsheet.recast.trial import Tried

NEAR = 4  # bends by which a recast may be worse than the best one, if its joins are easier
JOIN = 2  # cost in bends of a join that takes all the time available
_MOST_WAYS = 3  # for one lick
_MOST_TRIED = 20_000  # combinations; further licks keep their best recast
_SHORTEST = Fraction(1, 8)  # quarters: assumed if a pick-up has no room, which `check` reports


@dataclass(frozen=True, slots=True)
class Way:
    """A lick that may be used, and how it was recast; None for the original."""

    lick: Lick
    tried: Tried | None
    as_it_is: AsItIs | None = None  # the lick unchanged, if it may stay here

    @property
    def against(self) -> float:
        """Its cost in bends."""
        return self.tried.against if self.tried else 0.0

    @property
    def kind(self) -> tuple[int, ...]:
        """All that comes before its cost in the order of recasts, see `Tried.rank`."""
        return self.tried.rank[:-1] if self.tried else ()


def near(ways: Sequence[Way]) -> list[Way]:
    """The ways nearly as good as the first, which is the best."""
    best = ways[0]
    good = takewhile(lambda way: way.kind == best.kind and way.against <= best.against + NEAR, ways)
    return list(islice(good, _MOST_WAYS))


def easiest(parts: Sequence[Sequence[Way]], order: Sequence[int], bar: Fraction) -> list[Way]:
    """A way for each part, so that the total cost is least when they are played in order as a loop.

    `bar` is the length of a bar in quarters.
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
    """The cost of the move from one lick to the next, see `arrange.cost.strain`."""
    before, after = _struck(first, bar), _struck(second, bar)
    if not before or not after:
        return 0.0
    (last, tab), (start, target) = before[-1], after[0]
    gap = len(first.bars) * bar - last + start
    return strain(tab, target, max(gap, _SHORTEST))


def _struck(lick: Lick, bar: Fraction) -> list[tuple[Fraction, Tab]]:
    """The notes of a lick with their onsets in quarters from its first bar line."""
    lead = () if lick.pickup_once else lick.pickup  # no join leads into a pick-up played once
    bars = [(-lick.pickup_length, lead), *((n * bar, m) for n, m in enumerate(lick.bars))]
    return [
        (start + mark.onset, mark.tab)
        for start, marks in bars
        for mark in marks
        if mark.kind is Kind.NOTE and mark.tab
    ]
