"""The blocks of the study page below the lick cards, and where they stand.

Their heights are estimated from the metrics of the faces, a little high, so that it is known before
typesetting whether all of them fit on the page. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Literal

Place = Literal["slot", "left", "middle", "right", "foot"]

BESIDE = 8.0  # between two columns
FOOT_GAP = 2.0  # above each block at the foot
ABOVE = 1.5  # a column's block under another


@dataclass(frozen=True, slots=True)
class Block:
    """A block of the page: its name in the template, and its height in a width."""

    name: str
    height: Callable[[float], float]
    #: The same at the foot of the page, over its whole width, with its heading at the left.
    wide: Callable[[float], float] | None = None

    @classmethod
    def of(
        cls,
        name: str,
        height: Callable[[float], float],
        wide: Callable[[float], float] | None = None,
    ) -> Block:
        """A block whose heights are computed once for each width."""
        return cls(name, cache(height), cache(wide) if wide else None)


@dataclass(frozen=True, slots=True)
class Column:
    """Blocks one above the other."""

    width: float
    blocks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Placement:
    """Where all blocks stand."""

    columns: tuple[Column, ...]
    foot: tuple[str, ...]
    slot: str  # the block in the free end of the last row of cards, or ""
    band: float  # height of the columns
    height: float  # of columns and foot


#: What is wanted where it is possible: the price of a place in millimetres of page.
WANTED: dict[str, dict[Place, float]] = {
    "chords": {"left": 6.0, "slot": 60.0, "foot": 60.0},
    "plan": {"foot": 1.0},
    "mind": {"left": 4.0, "middle": 4.0, "right": 6.0, "slot": 8.0},
    "says": {"slot": -3.0},
}


def placed(
    fixed: Sequence[tuple[float, Sequence[Block]]],
    free: Sequence[Block],
    room: float,
    depth: float,
    slot: tuple[float, float],
) -> Placement:
    """The best placement: one that fits in `depth`, else the lowest.

    `fixed`: the columns with what stands in them in any case; `slot`: width and height of the free
    end of the last row of cards.
    """
    names: list[Place] = ["left", "middle", "right"]
    columns: list[Place] = names[: len(fixed)]
    choices = [
        [
            *columns,
            *(["foot"] if block.wide else []),
            *(["slot"] if slot[0] and block.height(slot[0]) <= slot[1] else []),
        ]
        for block in free
    ]
    best: tuple[tuple[bool, float], Placement] | None = None
    for places in product(*choices):
        if places.count("slot") > 1:
            continue
        made = _made(fixed, free, places, room)  # type: ignore[arg-type]
        price = sum(
            WANTED.get(block.name, {}).get(place, 0.0)  # type: ignore[call-overload]
            for block, place in zip(free, places, strict=True)
        )
        over = made.height > depth
        key = (over, made.height if over else price + 0.35 * made.height)
        if best is None or key < best[0]:
            best = (key, made)
    assert best is not None
    return best[1]


def _made(
    fixed: Sequence[tuple[float, Sequence[Block]]],
    free: Sequence[Block],
    places: Sequence[Place],
    room: float,
) -> Placement:
    def at(place: Place) -> Iterator[Block]:
        return (block for block, where in zip(free, places, strict=True) if where == place)

    names: tuple[Place, ...] = ("left", "middle", "right")
    columns, heights = [], []
    for (width, own), name in zip(fixed, names, strict=False):
        blocks = [*own, *at(name)]
        columns.append(Column(width, tuple(block.name for block in blocks)))
        heights.append(
            sum(block.height(width) for block in blocks) + ABOVE * max(0, len(blocks) - 1)
        )
    foot = list(at("foot"))
    band = max(heights, default=0.0)
    below = sum((block.wide or block.height)(room) + FOOT_GAP for block in foot)
    slot = next(iter(at("slot")), None)
    return Placement(
        tuple(column for column in columns if column.blocks),
        tuple(block.name for block in foot),
        slot.name if slot else "",
        band,
        band + below,
    )
