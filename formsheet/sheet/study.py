"""The study page: lick cards, harp map, chords, what to tick off, what to mind.

It is one page where all of it fits at a size of type that can be read; else it flows on. Lengths
are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from formsheet.sheet.draw.harp_map import HarpMap, harp_words
from formsheet.sheet.draw.lick_cards import CardRow, Setting, card_rows
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import facts_lines, line_count
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.study_blocks import BESIDE, Block, Placement, placed
from formsheet.sheet.study_table import (
    TickTable,
    chord_columns,
    chords_height,
    fitted,
    tick_table,
)
from formsheet.sheet.view import PracticeGroup, Sheet

FOR_PRACTICE = "for practice"
DEGREES = (
    "In the comb of each lick: what the note is in the chord. R is its root, bold where the lick "
    "lands."
)
LARGE = 14.0  # pt
SMALL = 0.9  # of the text, for notes and cautions
LEAST = 9.0  # pt
HEADING = 6.8  # height of a heading, at 10.5 pt
HEAD = 10.0  # height of the page's title, at 10.5 pt
RULE = 4.6  # the line above the columns, with its white
LABEL = 24.0  # width of a heading at the left of its block, at 10.5 pt
ITEM = 5.0  # indent of the sentences of the plan, for their numbers
END_GAP = 2.5  # above the cautions
LEAST_COLUMN = 70.0  # width of a column with the harp map
LEAST_SLOT = 58.0  # width of a block beside the last cards, at 10.5 pt
MOST_GAP = 4.5  # largest extra space between two parts of the page


@dataclass(frozen=True, slots=True)
class Try:
    """One way to set the page."""

    text: float  # pt
    tight: bool  # lanes in which nothing is played are low
    row: float  # height of a row to tick off (mm)
    moves: int  # number of moves and joins to tick off, at most
    licks: bool = True  # licks that are easy at full tempo are ticked off too


NORMAL = (
    Try(10.5, tight=False, row=6.0, moves=8),
    Try(10.5, tight=False, row=5.4, moves=6),
    Try(10.5, tight=False, row=5.1, moves=5),
    Try(10.5, tight=True, row=5.0, moves=4),
    Try(10.0, tight=True, row=4.8, moves=4),
    Try(10.0, tight=True, row=4.8, moves=4, licks=False),
    Try(9.5, tight=True, row=4.6, moves=4, licks=False),
    Try(9.5, tight=True, row=4.4, moves=3, licks=False),
)
LARGE_TRIES = (Try(LARGE, tight=False, row=7.4, moves=8),)


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
        return 0.43 * self.text

    @property
    def share(self) -> float:
        """The size of everything, 1 at 10.5 pt."""
        return self.text / 10.5

    def cards(self) -> list[CardRow]:
        """The lick cards."""
        two = self.large or self.paper.upright
        setting = Setting(self.paper.room, 4 if two else 6, self.text, self.look, self.how.tight)
        return card_rows(self.sheet.cards, setting)

    @property
    def says(self) -> tuple[str, ...]:
        """The teacher's words that are not on the front."""
        said = self.sheet.says
        return said[1:] if self.said and said and said[0] == self.said else said

    # ---- Blocks ----------------------------------------------------------------------------

    def table(self, room: float) -> TickTable:
        """What to tick off, in a column of a width."""
        return tick_table(self.rows(), self.sheet.ladder, self.text, self.how.row, room)

    def rows(self) -> list[PracticeGroup]:
        """The rows to tick off, as many as this way of setting has."""
        target = float(self.sheet.ladder[-1])
        return [
            replace(
                group,
                rows=tuple(
                    row
                    for row in group.rows
                    if row.among <= self.how.moves
                    and (self.how.licks or not row.letter or row.start < target)
                ),
            )
            for group in self.sheet.practice
        ]

    def columns(self) -> list[tuple[float, list[Block]]]:
        """The columns with what stands in them in any case; the last one has the ticks."""
        two = self.large or self.paper.upright
        count = 2 if two else 3
        one = (self.paper.room - (count - 1) * BESIDE - 0.1) / count
        table = self.table(one)
        wide = one
        widths = [one] * count
        if one < table.width <= self.paper.room - LEAST_COLUMN - BESIDE and count == 3:
            wide = table.width + 0.2
            others = (self.paper.room - 2 * BESIDE - wide - 0.1) / 2
            if others >= LEAST_COLUMN:
                widths = [others, others, wide]
            else:
                wide = max(wide, 2 * one + BESIDE)
                widths = [self.paper.room - wide - BESIDE - 0.1, wide]
        harp = Block.of("harp", self._harp_height)
        found: list[tuple[float, list[Block]]] = [(each, []) for each in widths]
        found[0][1].append(harp)
        if table.width <= wide and self._table_height(wide) <= self.paper.depth:
            found[-1][1].append(Block.of("joins", self._table_height))
        return found

    def _heading(self) -> float:
        return HEADING * self.share

    def harp_map(self, room: float) -> HarpMap:
        """The harp map of a column."""
        return HarpMap(room, self.text)

    def _harp_height(self, room: float) -> float:
        drawn = self.harp_map(room).draw(self.sheet.harp_map, self.look)
        return self._heading() + drawn.height + 1.0

    def _table_height(self, room: float) -> float:
        return self._heading() + self.table(room).height

    def free(self) -> list[Block]:
        """The blocks that stand wherever there is room."""
        found = []
        if self.sheet.chords:
            found.append(Block.of("chords", self._chords_height))
        if self.says or self.sheet.links:
            found.append(Block.of("says", self._says_height, self._says_height))
        if self.sheet.plan:
            found.append(self._list("plan", self.sheet.plan, ITEM * self.share))
        if self.sheet.mind:
            found.append(self._list("mind", self.sheet.mind, 0.0))
        return found

    def _list(self, name: str, items: Sequence[str], indent: float) -> Block:
        return Block.of(
            name,
            lambda room: self._heading() + self._lines(items, room - indent),
            lambda room: self._lines(items, room - indent - LABEL * self.share) + 1.0,
        )

    def _lines(self, texts: Sequence[str], room: float) -> float:
        font = Font("regular", self.text)
        return self.leading * sum(line_count(text, font, room) for text in texts)

    def _chords_height(self, room: float) -> float:
        return self._heading() + chords_height(self.sheet.chords, room, self.text)

    def _says_height(self, room: float) -> float:
        links = [link.printed for link in self.sheet.links]
        return self._lines([*self.says, *links], room) + 1.0

    # ---- The page --------------------------------------------------------------------------

    @property
    def head(self) -> float:
        """The height of its title."""
        return HEAD * self.share

    @property
    def note(self) -> float:
        """The height of the line below the cards."""
        if not self.sheet.cards:
            return 0.0
        lines = line_count(DEGREES, Font("italic", self.small), self.paper.room)
        return 0.43 * self.small * lines + 0.5

    @property
    def end(self) -> float:
        """The height of the cautions."""
        font, leading = Font("regular", self.small), 0.43 * self.small
        return END_GAP + leading * line_count(self.sheet.cautions, font, self.paper.room)


def _title(sheet: Sheet, room: float, share: float, harp: str) -> tuple[str, float, float]:
    """The title, cut if need be, its size, and the size of the facts beside it."""
    facts = width(harp, Font("bold", 12 * share))
    behind = width(FOR_PRACTICE, Font("regular", 13 * share)) + 5.0
    size = 20.0 * share
    left = room - facts - behind - BESIDE
    while size > 13 * share and width(sheet.title, Font("bold", size)) > left:
        size -= 0.5
    return fitted(sheet.title, Font("bold", size), left), size, 12 * share


def study(
    sheet: Sheet, paper: Paper, look: Look, *, large: bool = False, said: str = ""
) -> dict[str, Any]:
    """The values for the study page; `said`: the paragraph that is on the front."""
    tries = LARGE_TRIES if large else NORMAL
    pages = (StudyPage(sheet, paper, look, how, said, large) for how in tries)
    first = laid = _laid(next(pages))
    if laid.spare < 0 and len(tries) > 1:
        smallest = _laid(StudyPage(sheet, paper, look, tries[-1], said, large))
        if smallest.spare >= 0:
            laid = next((each for page in pages if (each := _laid(page)).spare >= 0), smallest)
    if laid.spare < 0:
        several = [_flowing(first)]
        if several[0].pages > 2:
            several += (
                _flowing(_laid(StudyPage(sheet, paper, look, how, said, large)))
                for how in tries[3:]
            )
        laid = min(several, key=lambda each: each.pages)
    return _values(laid)


@dataclass(frozen=True, slots=True)
class Laid:
    """A page with the places of everything."""

    page: StudyPage
    rows: Sequence[CardRow]
    placement: Placement
    spare: float  # height that is left; less than 0: it flows on
    pages: int = 1  # about
    alone: bool = False  # the columns begin a new page
    before: tuple[str, ...] = ()  # blocks of the foot that stand before the columns then

    @property
    def ticks_apart(self) -> bool:
        """Whether what is ticked off stands over the whole width, below the columns."""
        return not any("joins" in column.blocks for column in self.placement.columns)


def _laid(page: StudyPage) -> Laid:
    rows = page.cards()
    above = page.head + sum(row.height for row in rows) + page.note
    left = page.paper.depth - above - RULE - page.end
    made = Laid(page, rows, _placed(page, rows, left), 0.0)
    apart = page.table(page.paper.room).height + 10.0 if made.ticks_apart else 0.0
    return replace(made, spare=left - made.placement.height - apart)


def _flowing(laid: Laid) -> Laid:
    """A page that flows on to others: what stands on which."""
    page, rows = laid.page, laid.rows
    depth = page.paper.depth
    made = _placed(page, rows, depth - RULE - page.end)  # the columns may have their own page
    laid = replace(laid, placement=made)
    pages, y = 1, page.head

    def add(high: float) -> bool:
        """Add a part; whether it begins a new page."""
        nonlocal pages, y
        new = y + high > depth
        pages, y = (pages + 1, high) if new else (pages, y + high)
        return new

    for row in rows:
        add(row.height)
    add(page.note)
    heights = {block.name: block.wide or block.height for block in page.free()}
    foot = {name: heights[name](page.paper.room) + 4.0 for name in made.foot}
    before: list[str] = []
    if y + RULE + made.band > depth:
        for name, high in foot.items():
            if y + high > depth:
                break
            before.append(name)
            add(high)
    alone = add(RULE + made.band)
    if laid.ticks_apart:
        add(page.table(page.paper.room).height + 10.0)
    for name, high in foot.items():
        if name not in before:
            add(high)
    add(page.end)
    return replace(laid, pages=pages, alone=alone, before=tuple(before))


def _placed(page: StudyPage, rows: Sequence[CardRow], depth: float) -> Placement:
    free = rows[-1].free if rows else 0.0
    slot = (free, rows[-1].height) if free >= LEAST_SLOT * page.share else (0.0, 0.0)
    return placed(page.columns(), page.free(), page.paper.room, depth, slot)


def _values(laid: Laid) -> dict[str, Any]:
    page, rows, made, spare = laid.page, laid.rows, laid.placement, laid.spare
    sheet, paper = page.sheet, page.paper
    harp, _ = facts_lines(sheet)
    title, size, beside = _title(sheet, paper.room, page.share, harp)
    widths = {name: column.width for column in made.columns for name in column.blocks}
    chords = widths.get("chords", paper.room)
    table = page.table(widths.get("joins", paper.room))
    drawn = page.harp_map(widths["harp"]).draw(sheet.harp_map, page.look)
    gaps = len(rows) + 1 + len(made.foot)
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
        "placement": made,
        "foot": [name for name in made.foot if name not in laid.before],
        "before_columns": laid.before,
        "columns_alone": laid.alone,
        "harp_drawing": drawn,
        "harp_alt": harp_words(sheet.harp_map),
        "chord_columns": chord_columns(sheet.chords, chords, page.text),
        "ticks": table,
        "ticks_apart": laid.ticks_apart,
        "label": LABEL * page.share,
    }
