"""The study page: lick cards, harp map, chords, what to tick off, what to mind.

It is one page where all of it fits at a size of type that can be read; else it flows on. What is
ticked off is the same on every copy. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from formsheet.sheet.draw.harp_map import HarpMap, harp_words
from formsheet.sheet.draw.lick_cards import CardRow, Setting, card_rows
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import facts_lines
from formsheet.sheet.draw.paper import LOOSE_HEAD, Paper
from formsheet.sheet.draw.paragraphs import balanced, lines_needed
from formsheet.sheet.study_blocks import ABOVE, BESIDE, FOOT_GAP, Block, Placement, placed
from formsheet.sheet.study_table import (
    TableText,
    TickTable,
    chord_columns,
    chords_height,
    chords_width,
    fitted,
    tick_table,
)
from formsheet.sheet.view import Sheet

FOR_PRACTICE = "for practice"
DEGREES = (
    "Under each lick in italics: what the note is in the chord. R is its root, bold where the lick "
    "lands."
)
CHORDS = "The band’s chords"
HOLD_ONE = "to play along: hold one while it lasts"
LARGE = 14.0  # pt
SMALL = 0.9  # of the text, for notes and cautions
LEAST = 9.0  # pt
HEADING = 6.8  # height of a heading, at 10.5 pt
HEAD = 9.4  # height of the page's title, at 10.5 pt
CLOSE_HEADING, CLOSE_HEAD = 6.0, 7.6  # where the page is full
RULE = 2.6  # the line above the columns, with its white
ITEM = 5.0  # indent of the sentences of the plan, for their numbers
APART = 4.0  # above the ticks where they are below the columns, with a line
END_GAP = 1.5  # above the cautions
LEAST_COLUMN = 56.0  # width of a column of text, at 10.5 pt
LEAST_SLOT = 58.0  # width of a block beside the last cards, at 10.5 pt
MOST_GAP = 4.5  # largest extra space between two parts of the page


@dataclass(frozen=True, slots=True)
class Try:
    """One way to set the page."""

    text: float  # pt
    tight: bool  # lanes in which nothing is played are low
    row: float  # height of a row to tick off (mm)
    close: bool = False  # least white, and the tips of a card in one paragraph
    line: float = 0.43  # from line to line: mm a pt of text


NORMAL = (
    Try(10.5, tight=False, row=6.0),
    Try(10.5, tight=False, row=5.2),
    Try(10.5, tight=True, row=4.9),
    Try(10.0, tight=True, row=4.7),
    Try(9.5, tight=True, row=4.4, line=0.42),
    Try(10.0, tight=True, row=4.4, close=True, line=0.41),
    Try(9.5, tight=True, row=4.2, close=True, line=0.405),
    Try(9.0, tight=True, row=3.9, close=True, line=0.395),
)
LARGE_TRIES = (Try(LARGE, tight=False, row=7.4),)


@dataclass(frozen=True)
class StudyPage:
    """The study page at one size of type."""

    sheet: Sheet
    paper: Paper
    look: Look
    how: Try
    said: str  # the paragraph that is printed on the front already
    large: bool

    @property
    def text(self) -> float:
        """The size of text (pt)."""
        return self.how.text

    @property
    def small(self) -> float:
        """The size of notes (pt)."""
        return max(LEAST, SMALL * self.text)

    @property
    def leading(self) -> float:
        """The height of a line."""
        return self.how.line * self.text

    @property
    def small_leading(self) -> float:
        """The height of a line of notes."""
        return self.how.line * self.small

    @property
    def share(self) -> float:
        """The size of everything, 1 at 10.5 pt."""
        return self.text / 10.5

    def cards(self) -> list[CardRow]:
        """The lick cards."""
        two = self.large or self.paper.upright
        how = self.how
        setting = Setting(
            self.paper.room, 4 if two else 6, how.text, self.look, how.tight, how.close, how.line
        )
        return card_rows(self.sheet.cards, setting)

    @property
    def says(self) -> tuple[str, ...]:
        """The teacher's words that are not on the front."""
        said = self.sheet.says
        return said[1:] if self.said and said and said[0] == self.said else said

    def lines(self, text: str, room: float, *, numbered: bool = False) -> tuple[str, ...]:
        """The lines of a paragraph; `numbered`: it has a number at its left."""
        indent = ITEM if numbered else 0.0
        return balanced(text, Font("regular", self.text), room - indent)

    @property
    def cautions(self) -> tuple[str, ...]:
        """The lines of the cautions."""
        return balanced(self.sheet.cautions, Font("regular", self.small), self.paper.room)

    # ---- Blocks ----------------------------------------------------------------------------

    def table(self, parts: int) -> TickTable:
        """What to tick off, in one table or two side by side."""
        return tick_table(self.sheet.practice, self.sheet.ladder, self.text, self.how.row, parts)

    def layouts(self) -> Iterator[tuple[list[tuple[float, list[Block]]], float]]:
        """Ways to divide the page into columns; the harp and the ticks have their places.

        With each the height of the ticks below the columns, if they are not in one.
        """
        room = self.paper.room - 0.1
        harp = Block.of("harp", self._harp_height, 0.0)
        map_wide = self.harp_map(room).width
        for parts in (1, 2):
            wide = self.table(parts).width + 0.2
            ticks = Block.of("joins", self._table_height(parts), 0.0)
            left = room - map_wide - wide - 2 * BESIDE
            if parts == 1 and left >= LEAST_COLUMN * self.share:
                even = (room - 2 * BESIDE) / 3
                if wide <= even and map_wide <= even:
                    yield [(even, [harp]), (even, []), (even, [ticks])], 0.0
                yield [(map_wide, [harp]), (left, []), (wide, [ticks])], 0.0
            if left + BESIDE >= 0:
                yield [(map_wide, [harp]), (room - map_wide - BESIDE, [ticks])], 0.0
                half = (room - BESIDE) / 2
                if wide <= half and map_wide <= half:
                    yield [(half, [harp]), (half, [ticks])], 0.0
            elif wide <= room:
                half = (room - BESIDE) / 2
                yield [(half, [harp]), (half, [])], ticks.height(wide) + APART

    def harp_map(self, room: float) -> HarpMap:
        """The harp map of a column."""
        return HarpMap(room, self.text)

    @property
    def heading(self) -> float:
        """The height of a block's heading."""
        return (CLOSE_HEADING if self.how.close else HEADING) * self.share

    def _harp_height(self, room: float) -> float:
        drawn = self.harp_map(room).draw(self.sheet.harp_map, self.look)
        return self.heading + drawn.height + 1.0

    def _table_height(self, parts: int) -> Any:
        high = self.heading + self.table(parts).height
        return lambda room: high

    def free(self) -> list[Block]:
        """The blocks that stand wherever there is room."""
        least = LEAST_SLOT * self.share
        found = []
        if self.sheet.chords:
            wide = max(
                chords_width(self.sheet.chords, self.text),
                width(HOLD_ONE, Font("italic", self.small)) / 0.97,
            )
            found.append(Block.of("chords", self._chords_height, wide))
        if self.sheet.plan:
            found.append(self._list("plan", self.sheet.plan, numbered=True))
        if self.sheet.mind:
            found.append(self._list("mind", self.sheet.mind))
        if self.says or self.sheet.links:
            found.append(Block.of("says", self._says_height, least))
        return found

    def _list(self, name: str, items: Sequence[str], *, numbered: bool = False) -> Block:
        return Block.of(
            name,
            lambda room: self.heading + self._height(items, room, numbered=numbered),
            LEAST_COLUMN * self.share,
        )

    def _height(self, texts: Sequence[str], room: float, *, numbered: bool = False) -> float:
        font = Font("regular", self.text)
        indent = ITEM if numbered else 0.0
        return self.leading * sum(lines_needed(text, font, room - indent) for text in texts)

    def _chords_height(self, room: float) -> float:
        hint = 0.0 if self.hint_beside(room) else self.small_leading
        return self.heading + hint + chords_height(self.sheet.chords, room, self.table_text)

    def hint_beside(self, room: float) -> bool:
        """Whether the line on the chords has room beside its heading."""
        heading = width(CHORDS, Font("bold", 1.28 * self.text)) + 3.0
        return heading + width(HOLD_ONE, Font("italic", self.small)) <= 0.97 * room

    def _says_height(self, room: float) -> float:
        links = [link.printed for link in self.sheet.links]
        return self._height([*self.says, *links], room) + 1.0

    # ---- The page --------------------------------------------------------------------------

    @property
    def head(self) -> float:
        """The height of its title."""
        return (CLOSE_HEAD if self.how.close else HEAD) * self.share

    @property
    def padding(self) -> float:
        """Above and below the text of a row of chords, together."""
        return 1.0 if self.how.close else 1.4

    @property
    def table_text(self) -> TableText:
        """The sizes of the text in the table of chords."""
        return TableText(self.text, self.leading, self.padding)

    @property
    def note(self) -> float:
        """The height of the line above the cards."""
        if not self.sheet.cards:
            return 0.0
        lines = lines_needed(DEGREES, Font("italic", self.small), self.paper.room)
        return self.small_leading * lines + (0.5 if self.how.close else 1.0)

    @property
    def end(self) -> float:
        """The height of the cautions."""
        return END_GAP + self.small_leading * len(self.cautions)


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
