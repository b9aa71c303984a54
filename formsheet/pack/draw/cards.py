"""Lick cards: each lick once, large."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.pack.draw.form import ACROSS, in_fours
from formsheet.pack.draw.lines import Line, bar_size, bar_width, draw_line, last_tab, plan_line
from formsheet.pack.draw.rows import BarPlan, Rows, plan_rows
from formsheet.pack.draw.scale import bar_scale
from formsheet.pack.view import Bar, Card, HoleMark

SIZES = (20.0, 18.0, 17.0, 16.0, 15.0, 14.0, 13.0, 12.0, 11.0)  # pt
GUTTER = 8.0  # mm between two cards side by side
WIDEST = 134.0  # mm, a bar on a card

PlannedLine = tuple[tuple[BarPlan, ...], Rows]


@dataclass(frozen=True, slots=True)
class DrawnCard:
    """A card ready to be set; a half one takes half the width of the page."""

    card: Card
    lines: tuple[Line, ...]
    half: bool
    width: float  # mm


def in_rows(cards: Sequence[DrawnCard]) -> list[tuple[DrawnCard, ...]]:
    """Cards as rows of the page: two half ones that follow each other share a row."""
    rows: list[tuple[DrawnCard, ...]] = []
    for card in cards:
        if card.half and rows and len(rows[-1]) == 1 and rows[-1][0].half:
            rows[-1] = (rows[-1][0], card)
        else:
            rows.append((card,))
    return rows


def draw_card(card: Card, room: float) -> DrawnCard:
    """A card in a page width of `room` millimetres: one bar or two take half of it."""
    fours = list(in_fours([card.bars]))
    half = len(card.bars) <= 2 and room > 200
    tried = [(room / 2 - GUTTER / 2, fours)] if half else []
    tried += [(room, list(in_fours([card.bars], across))) for across in (ACROSS, 2, 1)]
    for across, lines in tried:  # until all numbers fit
        width = min(WIDEST, bar_width(across, max(map(len, lines)), card.pickup))
        found = [bar_size(bar, bar_scale(width, bar.length), SIZES) for bar in card.bars]
        if all(found):
            break
    sizes = [size or SIZES[-1] for size in found]
    planned = plan_card(card, lines, width, min(sizes), SIZES)
    return DrawnCard(card, draw_planned(planned), across < room, across)


def plan_card(
    card: Card,
    lines: Sequence[tuple[Bar, ...]],
    width: float,
    size: float,
    sizes: Sequence[float],
) -> tuple[PlannedLine, ...]:
    """The lines of a card: bars of equal `width` (mm), numbers at `size` (pt) or smaller."""
    planned = []
    first = 0
    for i, bars in enumerate(lines):
        degrees = [
            tuple((onset, name) for onset, index, name in card.degrees if index == first + j)
            for j in range(len(bars))
        ]
        plans = plan_line(
            bars,
            width,
            size,
            sizes=sizes,
            pickup=card.pickup if i == 0 else None,
            degrees=degrees,
        )
        planned.append((plans, plan_rows(plans, heading=False)))
        first += len(bars)
    return tuple(planned)


def draw_planned(
    planned: Sequence[PlannedLine], before: HoleMark | None = None, gutter: float = 0.0
) -> tuple[Line, ...]:
    """Draw a card's lines, those after the first `gutter` (mm) from the left.

    `before` is the tab that may sound on into the first.
    """
    drawn = []
    for i, (plans, rows) in enumerate(planned):
        indent = gutter if i else 0.0
        drawn.append(draw_line(plans, rows, before=before, indent=indent, heading=False))
        before = last_tab([plan.bar for plan in plans], before)
    return tuple(drawn)
