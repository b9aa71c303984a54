"""The heading of page 1: sizes that its texts take, worked out before it is set."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..view import Sheet
from .feel import HEIGHT as FEEL_HEIGHT
from .metrics import Font, width
from .words import accidentals

TITLE_SIZES = (26.0, 22.0, 19.0, 16.0, 14.0)  # pt
TITLE_LINES = 2  # at most, except at the smallest size
TITLE_LEADING = 1.12
FACT = Font("bold", 11.5)
FACT_LABEL = Font("regular", 9.5)
FACT_GAP = 6.5  # mm between two facts
FACT_ROW = 6.2
FEEL_WORDS = Font("regular", 11)
PARAGRAPH = Font("regular", 11)
PARAGRAPH_ROW = 5.4
FORM = Font("regular", 10)
FORM_ROW = 5.4
FORM_CELL = 4.0  # mm added to the text of the widest cell
FOOTER_SIZES = (8.5, 8.0, 7.5, 7.0, 6.5, 6.0)  # pt: so that a long footer takes two lines
FOOTER_SHARES = (0.24, 0.5, 0.24)  # of the page's width: file name, teacher and rights, page
SLACK = 0.94  # texts are broken a little early here, so that no line is one more than reckoned


@dataclass(frozen=True, slots=True)
class Masthead:
    """Sizes of the heading, in millimetres, but for the title's in points."""

    title_size: float
    form_cell: float
    height: float


def line_count(text: str, font: Font, room: float) -> int:
    """Lines that a paragraph takes in a width of `room` millimetres."""
    return _fill((width(word, font) for word in text.split()), width(" ", font), room * SLACK)


def _fill(widths: Iterable[float], gap: float, room: float) -> int:
    lines, x = 1, 0.0
    for wide in widths:
        if x and x + wide > room:
            lines, x = lines + 1, 0.0
        x += wide + gap
    return lines


def masthead(sheet: Sheet, room: float) -> Masthead:
    """Reckon the heading of a sheet in a page width of `room` millimetres."""
    cells = [cell for row in sheet.form_rows for cell in row]
    cell = FORM_CELL + max((width(accidentals(text), FORM) for text in cells), default=0.0)
    form_width = cell * max((len(row) for row in sheet.form_rows), default=0)
    left = room - form_width - 8.0
    size = TITLE_SIZES[-1]
    for size in TITLE_SIZES:
        lines = line_count(sheet.title, Font("bold", size), left)
        if lines <= TITLE_LINES:
            break
    title = lines * Font("bold", size).mm * TITLE_LEADING + 1.0
    facts = FACT_ROW * _fill(
        (
            width(fact.label + "  ", FACT_LABEL) + width(accidentals(fact.text), FACT)
            for fact in sheet.facts
        ),
        FACT_GAP,
        left * SLACK,
    )
    feel = max(
        FEEL_HEIGHT if sheet.feel_sign else 0.0,
        5.4 * line_count(sheet.feel_words, FEEL_WORDS, left - 32.0) if sheet.feel_words else 0.0,
    )
    form = FORM_ROW * len(sheet.form_rows)
    return Masthead(size, cell, max(title + facts + feel, form))


def paragraphs_height(texts: Iterable[str], room: float) -> float:
    """Height (mm) of paragraphs for the student, set in a width of `room` millimetres."""
    return sum(PARAGRAPH_ROW * line_count(text, PARAGRAPH, room) + 1.5 for text in texts)


def footer_size(sheet: Sheet, room: float) -> float:
    """The largest size (pt) at which the footer takes no more than two lines."""
    texts = (sheet.file_name, " · ".join(sheet.footer))
    for size in FOOTER_SIZES:
        font = Font("regular", size)
        wide = (width(text, font) for text in texts)
        if all(w <= 1.8 * share * room for w, share in zip(wide, FOOTER_SHARES, strict=False)):
            return size
    return FOOTER_SIZES[-1]
