"""Time to scale, over the demo lessons and the gallery, read from the printed sheets."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from statistics import linear_regression

import pytest

from formsheet.sheet.draw.scale import INSET
from tests.lessons import NAMES
from tests.sheet.demos import printed, sheet
from tests.sheet.gallery import GALLERY
from tests.sheet.placed import Placed, placed_bars
from tests.sheet.printed import MM, pages, pdf, read

LEAST = 13.0  # pt, of a hole number
DENSEST = 11.0  # in a bar of sixteenths
NEAR = 0.5 * MM
SHEETS = [*NAMES, *GALLERY]


@cache
def bars(name: str) -> tuple[Placed, ...]:
    """The bars of a sheet, but for pick-up bars."""
    if name in GALLERY:
        found = placed_bars(GALLERY[name](), pdf(name), pages(name))
    else:
        found = placed_bars(sheet(name), printed(name), read(printed(name)))
    return tuple(placed for placed in found if placed.bar.number)


def numbers(placed: Placed) -> Iterator[tuple[Fraction, float, float]]:
    """Onset, middle (points from the bar line) and size of each hole number of a bar.

    Each is looked for within a millimetre of its place; a test measures how near it is.
    """
    unit = (placed.right - placed.left - INSET * MM) / float(placed.bar.length)
    printed = [one for one in placed.numbers() if one[2] >= DENSEST]
    for mark in placed.bar.marks:
        if mark.tab is None or mark.hold:
            continue
        wanted = INSET * MM + float(mark.onset) * unit
        face = "bold" if mark.landing else "regular"
        for hole in mark.tab.holes:
            near = [
                (size, x - placed.left)
                for text, x, size, its_face in printed
                if (text, its_face) == (str(hole), face) and abs(x - placed.left - wanted) < MM
            ]
            assert near, (placed.bar.number, mark)
            size, middle = max(near)  # a count below may be the same figure, smaller
            yield mark.onset, middle, size


def dense(placed: Placed) -> bool:
    return any(mark.length < Fraction(1, 2) for mark in placed.bar.marks)


@pytest.mark.parametrize("name", SHEETS)
def test_hole_numbers_are_large_enough(name: str) -> None:
    """13 points, or 11 where a bar of the sheet has less than eighths."""
    least = DENSEST if any(map(dense, bars(name))) else LEAST
    sizes = [size for placed in bars(name) for _, _, size in numbers(placed)]
    assert len(sizes) >= 12
    assert min(sizes) >= least


@pytest.mark.parametrize("name", SHEETS)
def test_a_note_stands_in_proportion_to_its_onset(name: str) -> None:
    """By the straight line that fits all notes of bars of one width best."""
    widths: dict[int, list[tuple[float, float]]] = defaultdict(list)
    for placed in bars(name):
        for onset, middle, _ in numbers(placed):
            widths[round(placed.right - placed.left)].append((float(onset), middle))
    for notes in widths.values():
        onsets, middles = zip(*notes, strict=True)
        slope, start = linear_regression(onsets, middles)
        assert slope > 0
        assert max(abs(start + slope * at - x) for at, x in notes) < NEAR


@pytest.mark.parametrize("name", SHEETS)
def test_the_same_beat_has_the_same_place_down_the_page(name: str) -> None:
    places: dict[tuple[int, int, int, Fraction], list[float]] = defaultdict(list)
    for placed in bars(name):
        column = (placed.page, round(placed.left), round(placed.right))
        for onset, middle, _ in numbers(placed):
            places[(*column, onset)].append(placed.left + middle)
    assert any(len(xs) > 1 for xs in places.values())
    for xs in places.values():
        assert max(xs) - min(xs) < NEAR
