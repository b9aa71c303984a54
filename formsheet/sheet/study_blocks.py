"""The blocks of the study page below the lick cards, and where they stand.

Their heights are estimated from the metrics of the faces, a little high, so that it is known before
typesetting whether all of them fit on the page. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache
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
    depth: float,
    slot: tuple[float, float],
) -> Placement:
    """The best placement: one that fits in `depth`, else the lowest.

    `layouts`: ways to divide the page into columns, with what stands in each in any case, and the
    height of what stands below them;
    `slot`: width and height of the free end of the last row of cards.
    """
    best: tuple[tuple[bool, float], Placement] | None = None
    for fixed, below in layouts:
        choices = [
            [
                *(at for at, (width, _) in enumerate(fixed) if width >= block.least),
                FOOT,
                *([SLOT] if slot[0] >= block.least else []),
            ]
            for block in free
        ]
        for places in product(*choices):
            made = _made(fixed, free, places, room, slot)
            if made is None:
                continue
            high = made.height + below
            cost = high + sum(
                _COSTS.get(block.name, {}).get(place, 0.0)
                for block, place in zip(free, places, strict=True)
            )
            key = (high > depth, high if high > depth else cost)
            if best is None or key < best[0]:
                best = (key, made)
    assert best is not None
    return best[1]


def _made(
    fixed: Sequence[tuple[float, Sequence[Block]]],
    free: Sequence[Block],
    places: Sequence[int],
    room: float,
    slot: tuple[float, float],
) -> Placement | None:
    """The blocks in their places; None where they do not fit into the slot or the foot."""

    def at(place: int) -> list[Block]:
        return [block for block, where in zip(free, places, strict=True) if where == place]

    if _high(at(SLOT), slot[0]) > slot[1]:
        return None
    below = at(FOOT)
    wide = (room - BESIDE * (len(below) - 1) - 0.1) / max(1, len(below))
    if any(block.least > wide for block in below):
        return None
    columns = [(width, [*own, *at(number)]) for number, (width, own) in enumerate(fixed)]
    return Placement(
        tuple(Column(width, _names(blocks)) for width, blocks in columns if blocks),
        tuple(Column(wide, (block.name,)) for block in below),
        _names(at(SLOT)),
        max(_high(blocks, width) for width, blocks in columns),
        max(block.height(wide) for block in below) + FOOT_GAP if below else 0.0,
    )


def _high(blocks: Sequence[Block], width: float) -> float:
    return sum(block.height(width) for block in blocks) + ABOVE * max(0, len(blocks) - 1)


def _names(blocks: Iterable[Block]) -> tuple[str, ...]:
    return tuple(block.name for block in blocks)
