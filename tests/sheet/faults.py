"""What is wrong with a printed sheet, found by reading it back.

The numbers are those of the design of the sheet: our own choice, but for the size of the figures,
which follows what an eye resolves at a music stand, 80 cm away.
"""

from __future__ import annotations

import logging
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import combinations, pairwise
from unicodedata import combining

import numpy as np

from formsheet.sheet.options import AS_USUAL, Options
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import Sheet
from tests.sheet.bar_faults import bar_faults
from tests.sheet.contrast import luminance
from tests.sheet.inks import HAIR, name_of, place_of, rgb
from tests.sheet.placed import WHITE, Placed, placed_bars, systems
from tests.sheet.printed import FOREIGN, MM, Char, Page, Shape, overlaps, read

FREE = 8.0  # mm at every edge
THINNEST = 0.25  # mm
LIGHTEST = "#222222"
APART = 2.3  # mm from the ink of a line to that of the next


@dataclass(frozen=True)
class Leaf:
    """A printed sheet, read."""

    sheet: Sheet
    options: Options
    pages: tuple[Page, ...]
    bars: tuple[Placed, ...]

    @property
    def lines(self) -> list[list[Placed]]:
        """The lines of bars."""
        return systems(self.bars)


def leaf(sheet: Sheet, options: Options = AS_USUAL, data: bytes | None = None) -> Leaf:
    """Print a sheet, and read it."""
    data = data or sheet_pdf(sheet, options)
    pages = read(data)
    return Leaf(sheet, options, pages, tuple(placed_bars(sheet, data, pages)))


def faults(sheet: Sheet, options: Options = AS_USUAL) -> Iterator[str]:
    """Print a sheet and name all that is wrong with it."""
    with logged() as lines:
        data = sheet_pdf(sheet, options)
    yield from (f"logged: {line}" for line in lines)
    yield from leaf_faults(leaf(sheet, options, data))


def leaf_faults(found: Leaf) -> Iterator[str]:
    """All that is wrong with a sheet that was read."""
    for number, page in enumerate(found.pages, start=1):
        for fault in page_faults(page, found.options):
            yield f"page {number}: {fault}"
    yield from _lost(found)
    for line in found.lines:
        for at, placed in enumerate(line):
            before = line[at - 1] if at else None
            for fault in bar_faults(found.options, placed, before, last=at + 1 == len(line)):
                yield f"page {placed.page + 1}, bar {placed.bar.number}: {fault}"
    yield from _close_lines(found)
    yield from _untrue_columns(found)
    yield from _uneven_figures(found)


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


# ---- A page --------------------------------------------------------------------------------


def page_faults(page: Page, options: Options) -> Iterator[str]:
    """What is wrong whatever the page shows."""
    inks = {LIGHTEST, WHITE, *options.colours}
    darkest = luminance(rgb(LIGHTEST))
    inked: list[Char | Shape] = [*page.chars, *page.shapes]
    for each in inked:
        if not _free(each, page):
            yield f"{name_of(each)} is less than {FREE} mm from the edge at {place_of(each)}"
        if each.ink not in inks and luminance(rgb(each.ink)) > darkest:
            yield f"{name_of(each)} at {place_of(each)} is {each.ink}"
    for shape in page.shapes:
        if shape.thin < (THINNEST - 0.005) * MM:
            yield f"a line of {shape.thin / MM:.2f} mm at {place_of(shape)}"
    for char in page.chars:
        if abs(char.stretch - 1) > 0.002:
            yield f"{char.text!r} is stretched by {char.stretch:.3f} at {place_of(char)}"
        if char.advance and abs(char.end - char.start - char.advance) > 0.02 * MM:
            yield f"{char.text!r} has not the width of its face at {place_of(char)}"
    for one, other in overlaps(page):
        foreign = FOREIGN in (one.face, other.face)  # their ink is not known
        if not foreign and not combining(one.text[0]) and not combining(other.text[0]):
            yield f"{one.text!r} and {other.text!r} overlap at {place_of(one)}"


def _free(each: Char | Shape, page: Page) -> bool:
    least = (FREE - HAIR) * MM
    return each.text.isspace() if isinstance(each, Char) and not each.text.strip() else (
        each.left >= least
        and each.top >= least
        and each.right <= page.width - least
        and each.bottom <= page.height - least
    )  # fmt: skip


def _lost(found: Leaf) -> Iterator[str]:
    """Texts that are not on the sheet from end to end."""
    printed = "".join(page.text for page in found.pages)
    for words in _texts(found.sheet):
        wanted = "".join(words.split())
        if wanted.isascii() and wanted not in printed:
            yield f"not printed whole: {words}"


def _texts(sheet: Sheet) -> Iterable[str]:
    yield sheet.title
    for chorus in sheet.choruses:
        yield chorus.title
        if chorus.title and not chorus.places:
            yield chorus.note  # where there is but one chorus the head of the page says it


# ---- Lines ---------------------------------------------------------------------------------

COLUMN = 0.5 * MM


def _close_lines(found: Leaf) -> Iterator[str]:
    """Lines that come nearer to each other than they may, measured column by column."""
    for one, other in pairwise(found.lines):
        if one[0].page != other[0].page:
            continue
        width = found.pages[one[0].page].width
        gap = min(_skyline(other, width, upper=True) - _skyline(one, width, upper=False)) / MM
        if gap < APART - HAIR:
            names = f"bars {one[0].bar.number} and {other[0].bar.number}"
            yield f"page {one[0].page + 1}: {names} are {gap:.2f} mm apart"


def _skyline(line: Sequence[Placed], width: float, *, upper: bool) -> np.ndarray:
    """The highest or the lowest ink of a line in each column of the page, a millimetre wide."""
    edge = np.full(int(width / COLUMN) + 1, np.inf if upper else -np.inf)
    for placed in line:
        for each in placed.ink:
            if isinstance(each, Char) and each.text.isspace():
                continue
            first, last = int(each.left / COLUMN), int(each.right / COLUMN)
            part = edge[max(0, first) : last + 1]
            if upper:
                np.minimum(part, each.top, out=part)
            else:
                np.maximum(part, each.bottom, out=part)
    return edge


def _untrue_columns(found: Leaf) -> Iterator[str]:
    """The same beat has the same place in all lines of a chorus.

    But for a line with a wider bar, and at the heavy bar line of a repeat or of the end.
    """
    columns: dict[tuple[int, int], list[Placed]] = defaultdict(list)
    for line in found.lines:
        widths = [each.right - each.left for each in line if each.bar.number]
        if widths and max(widths) - min(widths) < 0.2 * MM:
            for each in line:
                own = [bar for row in each.chorus.lines for bar in row]
                heavy = each.bar is own[-1] or (each.bar is own[0] and each.chorus.opens_repeat)
                if each.bar.number and not heavy:
                    whole = next(
                        at for at, c in enumerate(found.sheet.choruses) if c is each.chorus
                    )
                    while found.sheet.choruses[whole].places:
                        whole -= 1
                    columns[whole, round((each.right - each.left) / MM)].append(each)
    for bars in columns.values():
        for one, other in combinations(bars, 2):
            if one.page != other.page or abs(one.left - other.left) > 3 * MM:
                continue
            if abs(one.left - other.left) > HAIR * MM:
                yield f"bars {one.bar.number} and {other.bar.number} are not in one column"
            elif len(one.teeth) == len(other.teeth) and any(
                abs(a - b) > HAIR * MM for a, b in zip(one.teeth, other.teeth, strict=True)
            ):
                yield f"the beats of bars {one.bar.number} and {other.bar.number} differ"


def _uneven_figures(found: Leaf) -> Iterator[str]:
    """The figures of single holes have one size in a chorus."""
    sizes: dict[tuple[int, int], set[float]] = defaultdict(set)
    for at, chorus in enumerate(found.sheet.choruses):
        for placed in found.bars:
            if placed.chorus is chorus:
                for box in placed.boxes:
                    figures = placed.figures(box)
                    if len(figures) == 1:
                        sizes[placed.page, at].add(figures[0][1].size)
    for (page, _), found_sizes in sizes.items():
        if max(found_sizes) - min(found_sizes) > 0.3:
            yield f"page {page + 1}: figures of {sorted(found_sizes)} pt"
