"""The practice log: about how high it is, so that it keeps to one page where it can."""

from __future__ import annotations

from formsheet.pack.draw.key import WIDTH, join_height
from formsheet.pack.draw.masthead import line_count
from formsheet.pack.draw.metrics import Font
from formsheet.pack.view import PracticeRow, Sheet

NAME, WHERE, MOVES, SIGN = 53.5, 29.5, 33.0, 18.0  # mm: columns, as in sheet.css
WORDS = Font("regular", 10)
WORDS_ROW = 4.2
LEAST_ROW = 5.75  # mm of a row, and what is added to the highest thing in it:
ROW_PADDING = 0.75
GROUP = 6.5
ABOVE = 40.0  # title, two paragraphs and the heads of the columns


def log_height(sheet: Sheet) -> float:
    """The height (mm) of the practice log, a little too much rather than too little."""
    groups = sum(GROUP for group in sheet.practice if group.title)
    rows = (_row_height(row) for group in sheet.practice for row in group.rows)
    return ABOVE + groups + sum(rows)


def _row_height(row: PracticeRow) -> float:
    columns = ((row.name, NAME), (row.where, WHERE), (row.moves, MOVES))
    lines = max(line_count(text, WORDS, room) for text, room in columns)
    sign = 0.0
    if row.last and row.first:
        sign = join_height(row.last, row.first) * SIGN / WIDTH
    return max(LEAST_ROW, ROW_PADDING + max(lines * WORDS_ROW, sign))
