"""The tables of the study page: what to tick off, and the chords on this harp, with their widths.

Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import line_count
from formsheet.sheet.draw.practice_marks import (
    TickSizes,
    boxed,
    draw_boxes,
    draw_letters,
    draw_tempos,
    letters_words,
    tick_sizes,
)
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.tab_text import move_text
from formsheet.sheet.view import ChordRow, PracticeGroup, PracticeRow

AFTER_LETTERS = 1.6
AFTER_NAME = 2.4
TICK = 1.25  # em of an apostrophe of our faces: the face of signs has it wider
CHORD = 21.0  # width of the column of chords, at 10.5 pt
PADDING = 1.9  # above and below the text of a row, together


@dataclass(frozen=True, slots=True)
class TickRow:
    """A row to tick off."""

    sign: Canvas | None  # the letters of its licks
    sign_words: str
    text: str
    boxes: Canvas
    boxes_words: str
    opens: bool  # a group begins here
    strong: bool  # the whole tune


@dataclass(frozen=True, slots=True)
class TickTable:
    """The table of what is ticked off."""

    rows: tuple[TickRow, ...]
    tempos: Canvas
    tempos_words: str
    name: float  # width of the column of names
    boxes: float  # width of the column of boxes
    row: float  # height of a row

    @property
    def width(self) -> float:
        """Its width."""
        return self.name + self.boxes

    @property
    def height(self) -> float:
        """Its height, with the row of tempos."""
        return self.row * len(self.rows) + self.tempos.height + 0.8


def tick_table(
    groups: Sequence[PracticeGroup],
    ladder: Sequence[str],
    text: float,
    row: float,
    room: float,
) -> TickTable:
    """The table at a size of text (pt) and a height of rows; of names only titles are cut."""
    sizes = tick_sizes(text, ladder)
    font = Font("regular", text)
    needed = max((_name_width(each, sizes, font) for each in _moves(groups)), default=30.0)
    boxes = sizes.pitch * len(ladder)
    name = max(needed, min(room - boxes, 1.3 * needed))
    rows = [
        _row(each, group, at, ladder, sizes, name)
        for group in groups
        for at, each in enumerate(group.rows)
    ]
    words = f"tempos: {', '.join(ladder)}"
    return TickTable(tuple(rows), draw_tempos(ladder, sizes), words, name, boxes, row)


def _moves(groups: Sequence[PracticeGroup]) -> Iterator[PracticeRow]:
    return (row for group in groups for row in group.rows if row.last and row.first)


def _letters(row: PracticeRow) -> tuple[str, ...]:
    return row.letters or ((row.letter,) if row.letter else ())


def row_text(row: PracticeRow) -> str:
    """The words of a row: the move, or the title of the lick."""
    return move_text(row.last, row.first) if row.last and row.first else row.name


def _sign_width(row: PracticeRow, sizes: TickSizes) -> float:
    letters = _letters(row)
    if not letters:
        return 0.0
    return sizes.sign(letters) + AFTER_LETTERS


def _name_width(row: PracticeRow, sizes: TickSizes, font: Font) -> float:
    text = row_text(row)
    ticks = text.count("'") * TICK * width("'", font)
    return _sign_width(row, sizes) + width(text, font) + ticks + AFTER_NAME


def _row(
    row: PracticeRow,
    group: PracticeGroup,
    at: int,
    ladder: Sequence[str],
    sizes: TickSizes,
    name: float,
) -> TickRow:
    letters = _letters(row)
    text = row_text(row)
    if not row.last:
        text = fitted(text, Font("bold", sizes.text), name - _sign_width(row, sizes) - 1.0)
    tempos = boxed(ladder, row.start)
    return TickRow(
        sign=draw_letters(letters, sizes) if letters else None,
        sign_words=letters_words(letters),
        text=text,
        boxes=draw_boxes(ladder, row.start, sizes),
        boxes_words=f"boxes to tick: {', '.join(tempos)}",
        opens=at == 0 and bool(group.title or not letters),
        strong=not letters,
    )


def fitted(text: str, font: Font, room: float) -> str:
    """A text cut between words, with an ellipsis, where it is wider than `room`."""
    if width(text, font) <= room:
        return text
    words = text.split(" ")
    while words and width(" ".join(words) + " …", font) > room:
        words.pop()
    if words:
        return " ".join(words) + " …"
    end = len(text)
    while end and width(text[:end] + "…", font) > room:
        end -= 1
    return text[:end] + "…"


# ---- Chords on this harp -------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ChordColumns:
    """The widths of the table of chords."""

    chord: float
    blocks: float
    splits: float


def chord_columns(rows: Sequence[ChordRow], room: float, text: float) -> ChordColumns:
    """The widths in `room`: the names of chords on one line, the rest shared."""
    bold, regular = Font("bold", text), Font("regular", text)
    names = (
        width(accidentals(row.numeral), bold) + width(accidentals(row.letter), regular) + 4.5
        for row in rows
    )
    chord = max(names, default=CHORD)
    left = room - chord
    blocks = max((width(row.blocks, regular) for row in rows), default=0.0) + 3.0
    splits = max((width(row.splits, regular) for row in rows), default=0.0) + 2.0
    share = blocks / (blocks + splits)
    if blocks + splits > left:
        share = min(0.62, max(0.38, share))
    return ChordColumns(chord, share * left, (1 - share) * left)


def chords_height(rows: Sequence[ChordRow], room: float, text: float) -> float:
    """The height of the table without its heading."""
    columns = chord_columns(rows, room, text)
    font, leading = Font("regular", text), 0.43 * text
    high = leading + PADDING
    for row in rows:
        lines = max(
            line_count(row.blocks, font, columns.blocks - 2.0),
            line_count(row.splits, font, columns.splits - 1.0),
        )
        high += lines * leading + PADDING
    return high
