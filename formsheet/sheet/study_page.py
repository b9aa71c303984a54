"""The parts of the study page at one size of type, and their heights.

What is ticked off is the same on every copy. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from formsheet.sheet.draw.harp_map import HarpMap
from formsheet.sheet.draw.lick_cards import CardRow, Setting, card_rows
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.draw.paragraphs import balanced, lines_needed
from formsheet.sheet.study_blocks import BESIDE, Block
from formsheet.sheet.study_table import (
    TableText,
    TickTable,
    chords_height,
    chords_width,
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
