"""Layout of lick cards for the screen: bars a line and sizes, legible from a distance."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

from formsheet.sheet.draw.cards import PlannedLine, draw_planned, plan_card
from formsheet.sheet.draw.form import ACROSS, in_fours
from formsheet.sheet.draw.lines import Line, bar_size, bar_width, last_tab
from formsheet.sheet.draw.metrics import FIGURE_HEIGHT, MM_PER_PT
from formsheet.sheet.draw.scale import bar_scale
from formsheet.sheet.view import Card, HoleMark

SIZES = (26.0, 24.0, 22.0, 20.0, 19.0, 18.0, 17.0, 16.0, 15.0, 14.0, 13.0, 12.0, 11.0)  # pt
ROOMS = tuple(float(mm) for mm in range(64, 420, 6))  # widths to try for the lines of a card
LINE_GAP = 3.0  # mm between two lines
LEGIBLE = 48.0  # px: the least height of a hole number on a screen of 1080 lines


@dataclass(frozen=True, slots=True)
class Laid:
    """Planned lines of bars (mm), and the scale in pixels a millimetre."""

    planned: tuple[PlannedLine, ...]
    width: float  # mm, as are `height` and `gutter`
    height: float
    gutter: float  # indent of lines under a pick-up
    scale: float
    figure: float  # px: the height of the smallest hole number


@dataclass(frozen=True, slots=True)
class ScreenCard:
    """One screen: a lick, or a part of one that is too long for a single screen."""

    card: Card
    laid: Laid
    before: HoleMark | None = None  # the tab that may be held into this part
    part: int = 1
    parts: int = 1

    def lines(self) -> Iterator[tuple[float, Line]]:
        """Each drawn line with its top in millimetres."""
        y = 0.0
        for line in draw_planned(self.laid.planned, self.before, self.laid.gutter):
            yield y, line
            y += line.height + LINE_GAP


def screen_cards(card: Card, width: float, height: float) -> list[ScreenCard]:
    """A lick on as few screens (px) as possible with legible hole numbers."""
    cards: list[ScreenCard] = []
    for count in range(1, len(card.bars) + 1):
        cards = list(_shared(card, count, width, height))
        if all(one.laid.figure >= LEGIBLE for one in cards):
            break
    return cards


def _shared(card: Card, count: int, width: float, height: float) -> Iterator[ScreenCard]:
    """A lick divided over at most `count` screens."""
    each = ceil(len(card.bars) / count)
    parts = [card.bars[i : i + each] for i in range(0, len(card.bars), each)]
    before: HoleMark | None = None
    for i, bars in enumerate(parts):
        part = replace(card, bars=bars, degrees=(), pickup=None if i else card.pickup)
        yield ScreenCard(part, _largest(part, width, height), before, i + 1, len(parts))
        before = last_tab(bars, before)


def _largest(card: Card, width: float, height: float) -> Laid:
    """The setting with the largest hole numbers and, among equals, the largest rhythm."""
    tried = (
        _tried(card, across, room, width, height)
        for across in range(1, min(ACROSS, len(card.bars)) + 1)
        for room in ROOMS
    )
    return max(tried, key=lambda laid: (laid.figure, laid.scale))


def _tried(card: Card, across: int, room: float, width: float, height: float) -> Laid:
    """Lines of `across` bars in a width of `room` millimetres, scaled to the screen."""
    wide = bar_width(room, across, card.pickup)
    found = [bar_size(bar, bar_scale(wide, bar.length), SIZES) for bar in card.bars]
    size = min((size for size in found if size), default=0.0)
    planned = plan_card(card, list(in_fours([card.bars], across)), wide, size or SIZES[-1], SIZES)
    high = sum(rows.height + LINE_GAP for _, rows in planned) - LINE_GAP
    scale = min(width / room, height / high)
    figure = size * MM_PER_PT * FIGURE_HEIGHT * scale if all(found) else 0.0
    return Laid(planned, room, high, room - across * wide, scale, figure)
