"""The practice log: its columns, and about how high it is, so that it keeps to a page if it can."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.pack.draw.key import WIDTH, join_height
from formsheet.pack.draw.masthead import line_count
from formsheet.pack.draw.metrics import Font
from formsheet.pack.mark_styles import BREATH_LINE, MarkStyle
from formsheet.pack.view import PracticeRow, Sheet

NAME, WHERE, SIGN, EASY, TEMPO, DATE = 56.0, 32.0, 21.0, 19.0, 9.5, 24.0  # mm, columns
LEAST_MOVES = 33.0
STACKED_NAME, STACKED_DATE = 42.0, 16.0  # where the page is narrow: words below the name
LEAST_STEPS = 3
PADDING = 2.5  # mm right of each column but the boxes
PICTURE = 18.0  # mm, the drawing of a join
WIDE = 275.0  # mm: the room of a landscape page
WORDS = Font("regular", 10)
WORDS_ROW = 4.2
LEAST_ROW = 5.75  # mm of a row, and what is added to the highest thing in it:
ROW_PADDING = 0.75
GROUP = 6.5
NOTE = 6.0
ABOVE = 22.0  # title and the heads of the columns
PARAGRAPH = Font("regular", 10.5)
PARAGRAPH_ROW, PARAGRAPH_FOOT = 4.7, 1.5
LEAD_IN = 300  # characters, about, of the paragraph that the template holds


@dataclass(frozen=True, slots=True)
class LogColumns:
    """Widths (mm) of the log's columns; `stacked`: what is told of a join stands below its name."""

    name: float
    moves: float
    date: float
    stacked: bool
    steps: tuple[str, ...]  # the tempos to tick, as many as there is room for

    @property
    def boxes(self) -> float:
        """Width of the boxes for tempos and date together."""
        return TEMPO * len(self.steps) + self.date


def log_columns(room: float, ladder: Sequence[str]) -> LogColumns:
    """The columns of the log in a page width of `room` millimetres."""
    fixed = NAME + WHERE + SIGN + EASY + 5 * PADDING + DATE
    moves = room - fixed - TEMPO * len(ladder)
    if moves >= LEAST_MOVES:
        return LogColumns(NAME, moves, DATE, False, tuple(ladder))
    left = room - SIGN - 2 * PADDING - STACKED_DATE
    most = max(LEAST_STEPS, int((left - STACKED_NAME) // TEMPO))
    steps = _spread(ladder, most)
    return LogColumns(left - TEMPO * len(steps), 0.0, STACKED_DATE, True, steps)


def _spread(ladder: Sequence[str], most: int) -> tuple[str, ...]:
    """The first, the last, and those evenly between, `most` at most."""
    if len(ladder) <= most:
        return tuple(ladder)
    last = len(ladder) - 1
    return tuple(ladder[round(i * last / (most - 1))] for i in range(most))


def log_height(sheet: Sheet, room: float = WIDE, marks: MarkStyle = BREATH_LINE) -> float:
    """The height (mm) of the practice log, a little too much rather than too little."""
    columns = log_columns(room, sheet.ladder)
    above = ABOVE + sum(
        PARAGRAPH_ROW * line_count(text, PARAGRAPH, room) + PARAGRAPH_FOOT
        for text in ("mmmm " * (LEAD_IN // 8), sheet.cautions)
    )
    groups = sum(GROUP for group in sheet.practice if group.title)
    notes = sum(NOTE for group in sheet.practice if group.note)
    rows = (row_height(row, columns, marks) for group in sheet.practice for row in group.rows)
    return above + groups + notes + sum(rows)


def row_height(row: PracticeRow, columns: LogColumns, marks: MarkStyle = BREATH_LINE) -> float:
    """The height (mm) of a row, a little too much rather than too little."""
    told = [(row.name, columns.name), (row.where, WHERE), (row.moves, columns.moves)]
    if columns.stacked:
        below = f"{row.where} · {row.moves} · easy up to {row.tempo}" if row.moves else row.where
        told = [(row.name, columns.name), (below, columns.name)]
    counts = [line_count(text, WORDS, room) for text, room in told if text]
    lines = sum(counts) if columns.stacked else max(counts, default=1)
    sign = 0.0
    if row.last and row.first:
        sign = join_height(row.last, row.first, marks) * PICTURE / WIDTH
    return max(LEAST_ROW, ROW_PADDING + max(lines * WORDS_ROW, sign))
