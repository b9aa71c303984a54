"""The tables of the study page: what to tick off, and the chords on this harp, with their widths.

Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.paragraphs import balanced, broken
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
from formsheet.sheet.tab_text import move_text, pieces
from formsheet.sheet.view import ChordRow, PracticeGroup, PracticeRow

AFTER_LETTERS = 1.6
AFTER_NAME = 2.4
TICK = 1.25  # em of an apostrophe of our faces: the face of signs has it wider
CHORD_GAP = 3.0  # between two columns of the table of chords
PARTS_APART = 7.0  # between two parts of the table of what is ticked off
MOST_TITLE = 58.0  # width of a lick's title in that table, at 10.5 pt
HINT = "start at the first box; tick it when it went well three times"
HINT_LINE = "when it went well three times"  # its second line
BEATS = ("beats a minute", "a minute")


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
    """The table of what is ticked off, in one or two parts side by side."""

    parts: tuple[tuple[TickRow, ...], ...]
    hint: tuple[str, ...]  # lines
    hint_size: float  # pt
    tempos: Canvas
    tempos_words: str
    name: float  # width of the column of names
    boxes: float  # width of the column of boxes
    row: float  # height of a row

    @property
    def width(self) -> float:
        """Its width."""
        return (self.name + self.boxes) * len(self.parts) + PARTS_APART * (len(self.parts) - 1)

    @property
    def head(self) -> float:
        """The height of the row with hint and tempos."""
        return max(self.tempos.height, 0.43 * self.hint_size * len(self.hint)) + 0.8

    @property
    def height(self) -> float:
        """Its height."""
        return self.row * max(map(len, self.parts)) + self.head


def tick_table(
    groups: Sequence[PracticeGroup], ladder: Sequence[str], text: float, row: float, parts: int
) -> TickTable:
    """The table at a size of text (pt) and a height of rows; of names only titles are cut."""
    sizes = tick_sizes(text, ladder, row)
    font = Font("regular", text)
    hint = Font("italic", sizes.tempo.size)
    needed = max((_name_width(each, sizes, font) for each in _moves(groups)), default=30.0)
    titles = (_name_width(each, sizes, font) for group in groups for each in group.rows)
    least = width(HINT_LINE, hint) / 0.96 + AFTER_NAME
    name = max(needed, least, min(MOST_TITLE * sizes.text / 10.5, max(titles)))
    rows = [
        _row(each, group, at, ladder, sizes, name)
        for group in groups
        for at, each in enumerate(group.rows)
    ]
    first = -(-len(rows) // parts)
    words = f"tempos, beats a minute: {', '.join(ladder)}"
    return TickTable(
        tuple(tuple(rows[at : at + first]) for at in range(0, len(rows), first)),
        balanced(HINT, hint, name - AFTER_NAME),
        hint.size,
        draw_tempos(ladder, sizes, BEATS),
        words,
        name,
        sizes.pitch * len(ladder),
        row,
    )


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
class TableText:
    """The sizes of text in a table."""

    size: float  # pt
    leading: float
    padding: float  # above and below the text of a row, together


@dataclass(frozen=True, slots=True)
class ChordColumns:
    """The widths of the table of chords."""

    chord: float
    blocks: float
    splits: float


def _least(rows: Sequence[ChordRow], text: float) -> tuple[float, float, float]:
    """The least widths of the columns, with the white at their right."""
    bold, regular = Font("bold", text), Font("regular", text)

    def widest(all_words: Iterable[str]) -> float:
        return max(width(piece, regular) for words in all_words for piece in pieces(words))

    names = (
        width(accidentals(row.numeral), bold) + width(f" {accidentals(row.letter)}", regular)
        for row in rows
    )
    return (
        max(max(names), width("chord", regular)) + CHORD_GAP + 1.0,
        max(widest(row.blocks for row in rows), width("together", regular)) + CHORD_GAP + 1.0,
        max(widest(row.splits for row in rows), width("split", regular)) + 2.0,
    )


def chords_width(rows: Sequence[ChordRow], text: float) -> float:
    """The least width of the table, two pieces of the longest column side by side."""
    return 1.18 * sum(_least(rows, text))


def chord_columns(rows: Sequence[ChordRow], room: float, text: TableText) -> ChordColumns:
    """The widths in `room`: the names of chords on one line, the rest shared."""
    if not rows:
        return ChordColumns(0.0, 0.0, 0.0)
    regular = Font("regular", text.size)
    chord, blocks, splits = _least(rows, text.size)
    most_blocks = max(blocks, max(width(row.blocks, regular) for row in rows) + CHORD_GAP + 2.0)
    most_splits = max(splits, max(width(row.splits, regular) for row in rows) + 2.0)
    left = room - chord
    if most_blocks + most_splits <= left:
        spare = min(12.0, (left - most_blocks - most_splits) / 2)
        return ChordColumns(chord, most_blocks + spare, left - most_blocks - spare)
    best = min(
        (blocks + share / 20 * max(0.0, left - blocks - splits) for share in range(21)),
        key=lambda wide: _rows_height(rows, wide, left - wide, text),
    )
    return ChordColumns(chord, best, left - best)


def _rows_height(rows: Sequence[ChordRow], blocks: float, splits: float, text: TableText) -> float:
    font = Font("regular", text.size)
    return sum(
        text.leading
        * max(
            len(broken(pieces(row.blocks), font, blocks - CHORD_GAP)),
            len(broken(pieces(row.splits), font, splits)),
        )
        + text.padding
        for row in rows
    )


def chords_height(rows: Sequence[ChordRow], room: float, text: TableText) -> float:
    """The height of the table without its heading."""
    columns = chord_columns(rows, room, text)
    return text.leading + text.padding + _rows_height(rows, columns.blocks, columns.splits, text)
