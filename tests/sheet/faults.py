"""What is wrong with a printed sheet, found by reading it back."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from unicodedata import combining

from formsheet.sheet.draw.paper import PAPERS, Paper
from formsheet.sheet.draw.scale import INSET
from formsheet.sheet.options import PageSize
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import Mark, Sheet
from tests.sheet.placed import Placed, placed_bars
from tests.sheet.printed import FOREIGN, MM, Page, overlaps, read

LEAST_SIZE = 11.0  # pt of a hole number, in the densest bar
HAIR = 1.0  # pt
NEAR = 0.5 * MM  # of a number to its time


def faults(sheet: Sheet, page_size: PageSize = "A4") -> Iterator[str]:
    """Print a sheet and tell all that is wrong with it, in words."""
    with logged() as lines:
        data = sheet_pdf(sheet, page_size=page_size)
    yield from (f"logged: {line}" for line in lines)
    pages = read(data)
    for number, page in enumerate(pages, start=1):
        for fault in (*_outside(page, PAPERS[page_size]), *_overlapping(page)):
            yield f"page {number}: {fault}"
    yield from _lost(sheet, pages)
    for placed in placed_bars(sheet, data, pages):
        for fault in (*_beyond(placed), *_misplaced(placed)):
            yield f"page {placed.page + 1}, bar {placed.bar.number}: {fault}"


@contextmanager
def logged() -> Iterator[list[str]]:
    """What the setting library says meanwhile, from warnings up."""
    lines: list[str] = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: lines.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("weasyprint")
    logger.addHandler(handler)
    try:
        yield lines
    finally:
        logger.removeHandler(handler)


def _outside(page: Page, paper: Paper) -> Iterator[str]:
    """Characters outside the margins; the footer stands in the lower one."""
    for char in page.chars:
        if (
            char.left < paper.side * MM - HAIR
            or char.right > (paper.width - paper.side) * MM + HAIR
            or char.top < paper.top * MM - HAIR
            or char.bottom > paper.height * MM - 3 * MM
        ):
            yield f"{char.text!r} leaves the margins at {char.left:.1f}, {char.base:.1f}"


def _overlapping(page: Page) -> Iterator[str]:
    for one, other in overlaps(page):
        foreign = FOREIGN in (one.face, other.face)  # their ink is not known
        if not foreign and not combining(one.text[0]) and not combining(other.text[0]):
            yield f"{one.text!r} and {other.text!r} overlap at {one.left:.1f}, {one.base:.1f}"


def _lost(sheet: Sheet, pages: Sequence[Page]) -> Iterator[str]:
    """Texts that are not on the sheet from end to end."""
    printed = "".join(page.text for page in pages)
    for words in _texts(sheet):
        wanted = "".join(words.split())
        if wanted.isascii() and wanted not in printed:
            yield f"not printed whole: {words}"


def _texts(sheet: Sheet) -> Iterable[str]:
    yield sheet.title
    yield from sheet.says
    for chorus in sheet.choruses:
        yield chorus.title
    for card in sheet.cards:
        yield card.title
        yield from card.tips
    yield sheet.cautions


def _beyond(placed: Placed) -> Iterator[str]:
    """Characters beyond the bar's own drawing."""
    for char in placed.chars:
        across = placed.left - HAIR < char.left and char.right < placed.right + HAIR
        down = placed.top - HAIR < char.top and char.bottom < placed.bottom + HAIR
        if not (across and down):
            yield f"{char.text!r} leaves the bar at {char.left:.1f}, {char.base:.1f}"


def _misplaced(placed: Placed) -> Iterator[str]:
    """Hole numbers that do not stand at their time, or are too small."""
    bar = placed.bar
    if bar.number == 0:
        return  # a pick-up bar begins somewhere within
    unit = (placed.right - placed.left - INSET * MM) / float(bar.length)
    numbers = [(text, x, face) for text, x, size, face in placed.numbers() if size >= LEAST_SIZE]
    for mark in bar.marks:
        x = placed.left + INSET * MM + float(mark.onset) * unit
        for wanted in _holes(mark):
            if not any((text, face) == wanted and abs(at - x) < NEAR for text, at, face in numbers):
                yield f"{wanted[0]} is not at {x:.1f}"


def _holes(mark: Mark) -> Iterator[tuple[str, str]]:
    """The numbers of a mark and their face."""
    if mark.tab and not mark.hold:
        for hole in mark.tab.holes:
            yield str(hole), "bold" if mark.landing else "regular"
