"""Lick cards: each lick once, large."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.pack.draw.form import in_fours
from formsheet.pack.draw.holes import PLAIN_LOOK, Look
from formsheet.pack.draw.lines import Line, bar_size, bar_width, draw_line, last_tab, plan_line
from formsheet.pack.draw.rows import plan_rows
from formsheet.pack.draw.scale import bar_scale
from formsheet.pack.view import Bar, Card

SIZES = (20.0, 18.0, 17.0, 16.0, 15.0, 14.0, 13.0, 12.0, 11.0)  # pt
HALF_SIZE = 14.0  # pt: a card whose numbers would be smaller takes the whole width
GUTTER = 8.0  # mm between two cards side by side
WIDEST = 134.0  # mm, a bar on a card


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


def draw_card(card: Card, room: float, look: Look = PLAIN_LOOK) -> DrawnCard:
    """A card in a page width of `room` millimetres: one bar or two take half of it."""
    allowed = look.sizes(SIZES)

    def size(bar: Bar) -> float | None:
        return bar_size(bar, bar_scale(width, bar.length), allowed, look.marks)

    half = len(card.bars) <= 2 and room > 200
    across = room / 2 - GUTTER / 2 if half else room
    lines = list(in_fours([card.bars]))
    most = max(len(line) for line in lines)
    width = min(WIDEST, bar_width(across, most, card.pickup))
    if half and any((size(bar) or 0.0) < HALF_SIZE for bar in card.bars):
        half, across = False, room
        width = min(WIDEST, bar_width(across, most, card.pickup))
    sizes = [size(bar) or allowed[-1] for bar in card.bars]
    drawn = []
    before = None
    first = 0
    for i, bars in enumerate(lines):
        degrees = [
            tuple((onset, name) for onset, index, name in card.degrees if index == first + j)
            for j in range(len(bars))
        ]
        plans = plan_line(
            bars,
            width,
            min(sizes),
            sizes=allowed,
            marks=look.marks,
            pickup=card.pickup if i == 0 else None,
            degrees=degrees,
        )
        rows = plan_rows(plans, heading=False)
        drawn.append(draw_line(plans, rows, before=before, heading=False))
        before = last_tab(bars, before)
        first += len(bars)
    return DrawnCard(card, tuple(drawn), half, across)
