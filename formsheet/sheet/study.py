"""The study page: lick cards, harp map, chords, what to tick off, what to mind.

It is one page where all of it fits at a size of type that can be read; else it flows on. Lengths
are millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from formsheet.sheet.draw.harp_map import harp_words
from formsheet.sheet.draw.lick_cards import CardRow
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import facts_lines
from formsheet.sheet.draw.paper import LOOSE_HEAD, Paper
from formsheet.sheet.study_blocks import ABOVE, BESIDE, FOOT_GAP, Placement, placed
from formsheet.sheet.study_page import (
    APART,
    CHORDS,
    DEGREES,
    FOR_PRACTICE,
    HOLD_ONE,
    LARGE_TRIES,
    LEAST_SLOT,
    NORMAL,
    RULE,
    StudyPage,
)
from formsheet.sheet.study_table import TickTable, chord_columns, fitted
from formsheet.sheet.view import Sheet

MOST_GAP = 4.5  # largest extra space between two parts of the page


def _title(
    sheet: Sheet, room: float, share: float, harp: str, most: float
) -> tuple[str, float, float]:
    """The title, cut if need be, its size, and the size of the facts beside it."""
    facts = width(harp, Font("bold", 12 * share))
    behind = width(FOR_PRACTICE, Font("regular", 13 * share)) + 5.0
    size = most
    left = room - facts - behind - BESIDE
    while size > 13 * share and width(sheet.title, Font("bold", size)) > left:
        size -= 0.5
    return fitted(sheet.title, Font("bold", size), left), size, 12 * share


def study(
    sheet: Sheet, paper: Paper, look: Look, *, large: bool = False, said: str = ""
) -> dict[str, Any]:
    """The values for the study page; `said`: the paragraph that is on the front."""
    tries = LARGE_TRIES if large else NORMAL
    pages = [StudyPage(sheet, paper, look, how, said, large) for how in tries]
    smallest = _laid(pages[-1])
    if smallest.spare >= 0:
        return _values(_roomiest(pages, smallest))
    least = _flowing(pages[-1])
    several = map(_flowing, pages[:-1])
    return _values(next((each for each in several if each.pages == least.pages), least))


def _roomiest(pages: Sequence[StudyPage], smallest: Laid) -> Laid:
    """The first way of setting in which all fits, found by halves; the last one is `smallest`."""
    low, high, best = 0, len(pages) - 1, smallest
    while low < high:
        middle = (low + high) // 2
        laid = _laid(pages[middle])
        if laid.spare >= 0:
            high, best = middle, laid
        else:
            low = middle + 1
    return best


@dataclass(frozen=True, slots=True)
class Laid:
    """A page with the places of everything."""

    page: StudyPage
    rows: Sequence[CardRow]
    placement: Placement
    spare: float  # height that is left; less than 0: it flows on
    pages: int = 1  # about
    alone: bool = False  # the columns begin a new page
    foot_first: bool = False  # the foot stands before the columns, on the page of the last cards

    @property
    def ticks_apart(self) -> bool:
        """Whether what is ticked off stands over the whole width, below the columns."""
        return not any("joins" in column.blocks for column in self.placement.columns)

    @property
    def ticks(self) -> TickTable:
        """What is ticked off: in two tables where its column is wide enough."""
        wide = next(
            (column.width for column in self.placement.columns if "joins" in column.blocks),
            self.page.paper.room,
        )
        two = self.page.table(2)
        return two if two.width <= wide else self.page.table(1)


def _laid(page: StudyPage) -> Laid:
    rows = page.cards()
    above = page.head + page.note + sum(row.height for row in rows)
    left = page.paper.depth - above - RULE - page.end

    def order(band: float, foot: float, cost: float) -> tuple[float, ...]:
        high = band + foot
        return (1.0, high) if high > left else (0.0, cost)

    made = Laid(page, rows, _placed(page, rows, order), 0.0)
    return replace(made, spare=left - made.placement.height - _apart(made))


def _apart(laid: Laid) -> float:
    """The height of what is ticked off where it has the whole width."""
    return laid.ticks.height + laid.page.heading + APART if laid.ticks_apart else 0.0


def _flowing(page: StudyPage) -> Laid:
    """A page that flows on to others: what stands on which."""
    rows = page.cards()
    depth = page.paper.depth
    later = depth - LOOSE_HEAD
    pages, y = 1, page.head + page.note

    def add(high: float) -> bool:
        """Add a part; whether it begins a new page."""
        nonlocal pages, y
        new = y + high > (depth if pages == 1 else later)
        pages, y = (pages + 1, high) if new else (pages, y + high)
        return new

    for row in rows:
        add(row.height)
    beside = (depth if pages == 1 else later) - y  # what is left below the last cards
    whole = later - RULE - page.end

    def order(band: float, foot: float, cost: float) -> tuple[float, ...]:
        """Best all below the cards, then the foot there and the columns on a page."""
        if band + foot <= beside - RULE - page.end:
            return 0.0, cost
        if band <= whole and 0 < foot <= beside:
            return 1.0, cost
        return (2.0 if band + foot <= whole else 3.0 if band <= whole else 4.0), band, cost

    made = Laid(page, rows, _placed(page, rows, order), -1.0)
    band, foot = made.placement.band, made.placement.foot_height
    first = 0 < foot <= beside and RULE + band + foot + _apart(made) + page.end > beside
    if first:
        add(foot)
    alone = add(RULE + band)
    if made.ticks_apart:
        add(_apart(made))
    if foot and not first:
        add(foot)
    add(page.end)
    return replace(made, pages=pages, alone=alone, foot_first=first)


def _placed(
    page: StudyPage,
    rows: Sequence[CardRow],
    order: Callable[[float, float, float], tuple[float, ...]],
) -> Placement:
    free = rows[-1].free if rows else 0.0
    slot = (free, rows[-1].height) if free >= LEAST_SLOT * page.share else (0.0, 0.0)
    return placed(page.layouts(), page.free(), page.paper.room, order, slot)


def _values(laid: Laid) -> dict[str, Any]:
    page, rows, made, spare = laid.page, laid.rows, laid.placement, laid.spare
    sheet, paper = page.sheet, page.paper
    harp, _ = facts_lines(sheet)
    title, size, beside = _title(sheet, paper.room, page.share, harp, 2.1 * page.head)
    widths = {
        name: column.width for column in (*made.columns, *made.foot) for name in column.blocks
    }
    widths |= dict.fromkeys(made.slot, rows[-1].free if rows else 0.0)
    drawn = page.harp_map(widths["harp"]).draw(sheet.harp_map, page.look)
    gaps = len(rows) + 1 + bool(made.foot)
    gap = max(0.0, min(MOST_GAP, (spare - 1.0) / gaps))
    return {
        "study": page,
        "one_page": spare >= 0,
        "gap": gap,
        "study_title": title,
        "study_title_size": size,
        "study_facts_size": beside,
        "card_rows": rows,
        "degrees_note": DEGREES,
        "chords_heading": CHORDS,
        "hold_one": HOLD_ONE,
        "hint_beside": page.hint_beside(widths.get("chords", paper.room)),
        "placement": made,
        "widths": widths,
        "foot_gap": FOOT_GAP,
        "block_gap": ABOVE,
        "loose_head": LOOSE_HEAD,
        "loose_size": 12 if page.large else 10,
        "columns_alone": laid.alone,
        "foot_first": laid.foot_first,
        "harp_drawing": drawn,
        "harp_alt": harp_words(sheet.harp_map),
        "chord_columns": chord_columns(
            sheet.chords, widths.get("chords", paper.room), page.table_text
        ),
        "ticks": laid.ticks,
        "ticks_apart": laid.ticks_apart,
    }
