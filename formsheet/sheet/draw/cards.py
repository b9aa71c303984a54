"""Lick cards: each lick once, large."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.form import ACROSS, in_fours
from formsheet.sheet.draw.holes import PLAIN_LOOK, Look
from formsheet.sheet.draw.lines import Line, bar_size, bar_width, draw_line, last_tab, plan_line
from formsheet.sheet.draw.rows import BarPlan, Rows, plan_rows
from formsheet.sheet.draw.scale import bar_scale
from formsheet.sheet.view import Bar, Card, HoleMark

SIZES = (20.0, 18.0, 17.0, 16.0, 15.0, 14.0, 13.0, 12.0, 11.0)  # pt
HALF_SIZE = 14.0  # pt: a card with smaller numbers gets the whole width
GUTTER = 8.0  # mm between two cards side by side
WIDEST = 134.0  # mm, the widest bar on a card

PlannedLine = tuple[tuple[BarPlan, ...], Rows]


@dataclass(frozen=True, slots=True)
class DrawnCard:
    """A drawn card; a half one takes half the width of the page."""

    card: Card
    lines: tuple[Line, ...]
    half: bool
    width: float  # mm


def in_rows(cards: Sequence[DrawnCard]) -> list[tuple[DrawnCard, ...]]:
    """Cards in rows of the page: two consecutive half ones share a row."""
    rows: list[tuple[DrawnCard, ...]] = []
    for card in cards:
        if card.half and rows and len(rows[-1]) == 1 and rows[-1][0].half:
            rows[-1] = (rows[-1][0], card)
        else:
            rows.append((card,))
    return rows


def draw_card(card: Card, room: float, look: Look = PLAIN_LOOK) -> DrawnCard:
    """A card in a page width of `room` millimetres; one or two bars take half of it."""
    allowed = look.sizes(SIZES)
    for across, lines, least in _tried(card, room):  # until all numbers fit
        width = min(WIDEST, bar_width(across, max(map(len, lines)), card.pickup))
        scale = bar_scale(width, card.bars[0].length)
        found = [bar_size(bar, scale, allowed, look.marks) or 0.0 for bar in card.bars]
        if min(found) >= least:
            break
    size = min(found) or allowed[-1]
    planned = plan_card(card, lines, width, size, allowed, look)
    return DrawnCard(card, draw_planned(planned), across < room, across)


def _tried(card: Card, room: float) -> Iterator[tuple[float, list[tuple[Bar, ...]], float]]:
    """Candidates for a card: width (mm), bars line by line, and least size of numbers (pt)."""
    if len(card.bars) <= 2 and room > 200:
        yield room / 2 - GUTTER / 2, list(in_fours([card.bars])), HALF_SIZE
    for across in (ACROSS, 2, 1):
        yield room, list(in_fours([card.bars], across)), SIZES[-1]


def plan_card(
    card: Card,
    lines: Sequence[tuple[Bar, ...]],
    width: float,
    size: float,
    sizes: Sequence[float],
    look: Look = PLAIN_LOOK,
) -> tuple[PlannedLine, ...]:
    """The lines of a card: bars of equal `width` (mm), numbers of at most `size` (pt)."""
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
            marks=look.marks,
            pickup=card.pickup if i == 0 else None,
            degrees=degrees,
        )
        planned.append((plans, plan_rows(plans, heading=False)))
        first += len(bars)
    return tuple(planned)


def draw_planned(
    planned: Sequence[PlannedLine], before: HoleMark | None = None, gutter: float = 0.0
) -> tuple[Line, ...]:
    """Draw the lines of a card, indented by `gutter` (mm) after the first.

    `before` is the tab that may be held into the first.
    """
    drawn = []
    for i, (plans, rows) in enumerate(planned):
        indent = gutter if i else 0.0
        drawn.append(draw_line(plans, rows, before=before, indent=indent, heading=False))
        before = last_tab([plan.bar for plan in plans], before)
    return tuple(drawn)
