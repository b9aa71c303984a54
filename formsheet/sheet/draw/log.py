"""The practice log: its columns and its approximate height, to keep it on one page if possible."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.key import WIDTH, join_height
from formsheet.sheet.draw.masthead import line_count
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle
from formsheet.sheet.view import PracticeRow, Sheet

NAME, WHERE, SIGN, EASY, TEMPO, DATE = 56.0, 32.0, 21.0, 19.0, 9.5, 24.0  # mm, columns
LEAST_MOVES = 33.0
STACKED_NAME, STACKED_DATE = 42.0, 16.0  # mm, on a narrow page: details below the name
LEAST_STEPS = 3
PADDING = 2.5  # mm right of each column except the boxes
PICTURE = 18.0  # mm, width of the drawing of a join
WIDE = 275.0  # mm, width of a landscape page
WORDS = Font("regular", 10)
WORDS_ROW = 4.2
LEAST_ROW = 5.75  # mm of a row; next: what is added to its highest item
ROW_PADDING = 0.75
GROUP = 6.5
NOTE = 6.0
ABOVE = 22.0  # mm, title and column heads
PARAGRAPH = Font("regular", 10.5)
PARAGRAPH_ROW, PARAGRAPH_FOOT = 4.7, 1.5
TICK = "Tick a box when it went well three times running, and take the next step."


@dataclass(frozen=True, slots=True)
class LogColumns:
    """Widths (mm) of the log's columns; `stacked`: details of a join are below its name."""

    name: float
    moves: float
    date: float
    stacked: bool
    steps: tuple[str, ...]  # the tempos to tick, as many as fit

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
    """At most `most` tempos: the first, the last, and others evenly between."""
    if len(ladder) <= most:
        return tuple(ladder)
    last = len(ladder) - 1
    return tuple(ladder[round(i * last / (most - 1))] for i in range(most))


def log_texts(sheet: Sheet) -> tuple[str, ...]:
    """The paragraphs above the rows: plan, breath and how to tick, cautions."""
    plan = " ".join(f"{at} {line}" for at, line in enumerate(sheet.plan, start=1))
    return tuple(text for text in (plan, log_words(sheet), sheet.cautions) if text)


def log_words(sheet: Sheet) -> str:
    """The paragraph on breath, on a start that is not slow enough, and on the boxes."""
    return " ".join(text for text in (sheet.breath, sheet.slow, TICK) if text)


def details(row: PracticeRow) -> str:
    """What a narrow page prints below the name of a row."""
    at = "" if row.tempo.startswith("under") else "at "
    easy = f"easy {at}{row.tempo}" if row.tempo else ""
    return " · ".join(text for text in (row.where, row.moves, easy) if text)


def log_height(sheet: Sheet, room: float = WIDE, marks: MarkStyle = BREATH_LINE) -> float:
    """The height (mm) of the practice log, rounded up rather than down."""
    columns = log_columns(room, sheet.ladder)
    above = ABOVE + sum(
        PARAGRAPH_ROW * line_count(text, PARAGRAPH, room) + PARAGRAPH_FOOT
        for text in log_texts(sheet)
    )
    groups = sum(GROUP for group in sheet.practice if group.title)
    notes = sum(NOTE for group in sheet.practice if group.note)
    rows = (row_height(row, columns, marks) for group in sheet.practice for row in group.rows)
    return above + groups + notes + sum(rows)


def row_height(row: PracticeRow, columns: LogColumns, marks: MarkStyle = BREATH_LINE) -> float:
    """The height (mm) of a row, rounded up rather than down."""
    texts = [(row.name, columns.name), (row.where, WHERE), (row.moves, columns.moves)]
    if columns.stacked:
        below = details(row)
        texts = [(row.name, columns.name), (below, columns.name)]
    counts = [line_count(text, WORDS, room) for text, room in texts if text]
    lines = sum(counts) if columns.stacked else max(counts, default=1)
    sign = 0.0
    if row.last and row.first:
        sign = join_height(row.last, row.first, marks) * PICTURE / WIDTH
    return max(LEAST_ROW, ROW_PADDING + max(lines * WORDS_ROW, sign))
