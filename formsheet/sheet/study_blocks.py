"""The blocks of the study page below the lick cards, and where they stand.

Their heights are estimated from the metrics of the faces, a little high, so that it is known before
typesetting whether all of them fit on the page. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache, partial
from itertools import product

BESIDE = 8.0  # between two columns
FOOT_GAP = 4.0  # above the foot, its line included
ABOVE = 2.0  # a column's block under another
SLOT, FOOT = -1, -2  # places that are no columns


@dataclass(frozen=True, slots=True)
class Block:
    """A block of the page: its name in the template, its height in a width, its least width."""

    name: str
    height: Callable[[float], float]
    least: float

    @classmethod
    def of(cls, name: str, height: Callable[[float], float], least: float) -> Block:
        """A block whose heights are computed once for each width."""
        return cls(name, cache(height), least)


@dataclass(frozen=True, slots=True)
class Column:
    """Blocks one above the other."""

    width: float
    blocks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Placement:
    """Where all blocks stand."""

    columns: tuple[Column, ...]
    foot: tuple[Column, ...]  # side by side, below the columns
    slot: tuple[str, ...]  # the blocks in the free end of the last row of cards
    band: float  # height of the columns
    foot_height: float  # with the white above it

    @property
    def height(self) -> float:
        """The height of columns and foot."""
        return self.band + self.foot_height


#: What a place costs, in millimetres of page: reading is easier where blocks keep their order.
_COSTS = {"chords": {FOOT: 3.0, SLOT: 6.0}, "plan": {FOOT: 1.0}, "mind": {FOOT: 0.0, SLOT: 2.0}}


def placed(
    layouts: Iterable[tuple[Sequence[tuple[float, Sequence[Block]]], float]],
    free: Sequence[Block],
    room: float,
    order: Callable[[float, float, float], tuple[float, ...]],
    slot: tuple[float, float],
) -> Placement:
    """The best placement: the first in `order`, of the heights of columns and foot and the cost.

    `layouts`: ways to divide the page into columns, with what stands in each in any case, and the
    height of what stands below them;
    `slot`: width and height of the free end of the last row of cards.
    """
    best: tuple[tuple[float, ...], Callable[[], Placement]] | None = None
    prices = {
        (number, place): price
        for number, block in enumerate(free)
        for place, price in _COSTS.get(block.name, {}).items()
        if price
    }
    for fixed, below in layouts:
        wides = [(room - BESIDE * (count - 1) - 0.1) / max(1, count) for count in range(5)]
        own = [_high(blocks, width) for width, blocks in fixed]
        for places in product(*(_choices(fixed, block, slot[0]) for block in free)):
            made = _heights(own, fixed, free, places, wides, slot)
            if made is None:
                continue
            cost = sum(made) + below
            for (number, place), price in prices.items():
                if places[number] == place:
                    cost += price
            key = order(made[0] + below, made[1], cost)
            if best is None or key < best[0]:
                best = (key, partial(_placement, fixed, free, places, wides, made))
    assert best is not None
    return best[1]()


def _choices(
    fixed: Sequence[tuple[float, Sequence[Block]]], block: Block, slot: float
) -> list[int]:
    """The places that are wide enough for a block."""
    columns = [at for at, (width, _) in enumerate(fixed) if width >= block.least]
    return [*columns, FOOT, *([SLOT] if slot >= block.least else [])]


def _heights(
    own: Sequence[float],
    fixed: Sequence[tuple[float, Sequence[Block]]],
    free: Sequence[Block],
    places: Sequence[int],
    wides: Sequence[float],
    slot: tuple[float, float],
) -> tuple[float, float] | None:
    """The heights of columns and foot; None where the slot or the foot has too little room."""
    heights = list(own)
    wide = wides[places.count(FOOT)]
    foot, beside = 0.0, -ABOVE
    for block, place in zip(free, places, strict=True):
        if place == FOOT:
            if block.least > wide:
                return None
            foot = max(foot, block.height(wide) + FOOT_GAP)
        elif place == SLOT:
            beside += block.height(slot[0]) + ABOVE
        else:
            before = heights[place]
            heights[place] = before + block.height(fixed[place][0]) + (ABOVE if before else 0.0)
    return None if beside > slot[1] else (max(heights), foot)


def _placement(
    fixed: Sequence[tuple[float, Sequence[Block]]],
    free: Sequence[Block],
    places: Sequence[int],
    wides: Sequence[float],
    heights: tuple[float, float],
) -> Placement:
    def at(place: int) -> list[Block]:
        return [block for block, where in zip(free, places, strict=True) if where == place]

    columns = [(width, [*own, *at(number)]) for number, (width, own) in enumerate(fixed)]
    return Placement(
        tuple(Column(width, _names(blocks)) for width, blocks in columns if blocks),
        tuple(Column(wides[places.count(FOOT)], (block.name,)) for block in at(FOOT)),
        _names(at(SLOT)),
        *heights,
    )


def _high(blocks: Sequence[Block], width: float) -> float:
    return sum(block.height(width) for block in blocks) + ABOVE * max(0, len(blocks) - 1)


def _names(blocks: Iterable[Block]) -> tuple[str, ...]:
    return tuple(block.name for block in blocks)
