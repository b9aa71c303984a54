"""The heading of page 1: the sizes of its texts, computed before typesetting."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.feel import HEIGHT as FEEL_HEIGHT
from formsheet.sheet.draw.feel import feel_width
from formsheet.sheet.draw.form import ACROSS
from formsheet.sheet.draw.form_table import ROW as FORM_ROW
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Sheet

TITLE_SIZES = (26.0, 22.0, 19.0, 16.0, 14.0)  # pt
TITLE_LINES = 2  # at most, except at the smallest size
TITLE_LEADING = 1.12
FACT = Font("bold", 11.5)
FACT_LABEL = Font("regular", 9.5)
FACT_GAP = 5.0  # mm between two facts
FACT_ROW = 6.2
FEEL_WORDS = Font("regular", 11)
PARAGRAPH = Font("regular", 11)
PARAGRAPH_ROW = 5.4
FORM_SIZES = (10.0, 9.0, 8.0, 7.0, 6.0)  # pt: so that the form takes at most half of the width
FEEL_GAP = 4.0  # mm between the sign of the feel and its words, with some tolerance
FEEL_FOOT = 1.6  # mm from the sign of the feel down to the foot of its words
BELOW = 2.0  # mm of space under the heading
FORM_CELL = 4.0  # mm added to the text of the widest cell
FOOTER_SIZES = (8.5, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5, 5.0)  # pt: so that a long footer fits
FOOTER_LINES = 2
FOOTER_SHARES = (0.31, 0.36, 0.31)  # of the width: the pack, teacher and rights, page
SLACK = 0.94  # share of the width used here, so that typesetting never needs more lines


@dataclass(frozen=True, slots=True)
class Masthead:
    """Sizes of the heading in millimetres; type sizes in points."""

    title_size: float
    form_rows: tuple[tuple[str, ...], ...]
    form_cell: float
    form_size: float  # points
    beside: float  # width of the texts beside the form
    height: float


def line_count(text: str, font: Font, room: float) -> int:
    """The number of lines of a paragraph in a width of `room` millimetres."""
    return _fill((width(word, font) for word in text.split()), width(" ", font), room * SLACK)


def _fill(widths: Iterable[float], gap: float, room: float) -> int:
    lines, x = 1, 0.0
    for wide in widths:
        if x and x + wide > room:  # WeasyPrint may leave a line empty before a word that it breaks
            lines, x = lines + (2 if wide > room else 1), 0.0
        lines += int(wide // room)  # of a word longer than a line, which starts on a new line
        x += wide % room + gap
    return lines


def _whole_lines(wide: float, room: float) -> float:
    """The width (mm) that a fact takes: whole lines if it is longer than one."""
    return wide if wide <= room else (wide // room + 0.99) * room


def masthead(sheet: Sheet, room: float) -> Masthead:
    """Compute the heading of a sheet in a page width of `room` millimetres."""
    rows = tuple(
        row[start : start + ACROSS]
        for row in sheet.form_rows
        for start in range(0, len(row), ACROSS)
    )
    form_size, cell = _form_cell(rows, room)
    left = room - cell * max(map(len, rows), default=0) - 8.0
    size = TITLE_SIZES[-1]
    for size in TITLE_SIZES:
        font = Font("bold", size)
        lines = line_count(sheet.title, font, left)
        longest = max((width(word, font) for word in sheet.title.split()), default=0.0)
        if lines <= TITLE_LINES and longest <= left * SLACK:
            break
    title = lines * Font("bold", size).mm * TITLE_LEADING + 1.0
    facts = FACT_ROW * _fill(
        (
            _whole_lines(
                width(fact.label + "  ", FACT_LABEL) + width(accidentals(fact.text), FACT),
                left * SLACK,
            )
            for fact in sheet.facts
        ),
        FACT_GAP,
        left * SLACK - FACT_GAP,  # the last fact of a line has a gap too
    )
    feel = 0.0
    if sheet.feel_words:
        sign = feel_width(sheet.feel_sign) + FEEL_GAP if sheet.feel_sign else 0.0
        lines = line_count(sheet.feel_words, FEEL_WORDS, left - sign)
        feel = PARAGRAPH_ROW * (lines - 1) + (
            FEEL_HEIGHT + FEEL_FOOT if sheet.feel_sign else PARAGRAPH_ROW
        )
    form = FORM_ROW * len(rows)
    return Masthead(size, rows, cell, form_size, left, max(title + facts + feel, form) + BELOW)


def _form_cell(rows: Sequence[Sequence[str]], room: float) -> tuple[float, float]:
    """The size (pt) of the form's chords and the width (mm) of its cells."""
    across = max(map(len, rows), default=0)
    for size in FORM_SIZES:
        font = Font("regular", size)
        widest = max((width(accidentals(cell), font) for row in rows for cell in row), default=0.0)
        if (FORM_CELL + widest) * across <= room / 2:
            break
    return size, FORM_CELL + widest


def paragraphs_height(texts: Iterable[str], room: float) -> float:
    """Height (mm) of paragraphs for the student, set in a width of `room` millimetres."""
    return sum(PARAGRAPH_ROW * line_count(text, PARAGRAPH, room) + 1.5 for text in texts)


def footer_size(sheet: Sheet, room: float) -> float:
    """The largest size (pt) at which the footer takes at most two lines."""
    texts = (sheet.foot, " · ".join(sheet.footer))
    for size in FOOTER_SIZES:
        font = Font("regular", size)
        both = zip(texts, FOOTER_SHARES, strict=False)
        if all(line_count(text, font, share * room) <= FOOTER_LINES for text, share in both):
            return size
    return FOOTER_SIZES[-1]
