"""The boxes of the practice log: from the tempo on from which a row is practised."""

from __future__ import annotations

import math
import re

import pytest

from formsheet.sheet.draw.boxes import box_heads, tick_boxes
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.log import WIDE, details, log_columns
from formsheet.sheet.view import HoleMark, PracticeRow

COLUMNS = log_columns(WIDE, ("60", "72", "84", "100"))
HEIGHT = 6.0


def rules(canvas: Canvas) -> list[tuple[float, float, float, float]]:
    """The lines of a drawing, each with both ends, in mm."""
    paths = [path for found in canvas.strokes.values() for path in found]
    return [
        (float(x1), float(y1), float(x2), float(y2))
        for path in paths
        for x1, y1, x2, y2 in re.findall(r"M(\S+) (\S+)L(\S+) (\S+)", path)
    ]


def boxes(canvas: Canvas) -> int:
    """How many boxes stand between the upright rules."""
    return len({x1 for x1, y1, x2, y2 in rules(canvas) if x1 == x2 and y1 != y2}) - 1


def across(canvas: Canvas, y: float) -> list[tuple[float, float]]:
    """Where the level rules near a height begin and end."""
    return [
        (x1, x2)
        for x1, y1, x2, y2 in rules(canvas)
        if y1 == y2 and math.isclose(y1, y, abs_tol=0.2)
    ]


@pytest.mark.parametrize(
    ("start", "count"),
    [(60, 5), (66, 5), (72, 4), (76, 4), (84, 3), (99, 3), (100, 2), (40, 5)],
)
def test_the_first_box_is_that_of_the_last_tempo_up_to_the_start(start: float, count: int) -> None:
    """One for each tempo, and one for the date."""
    assert boxes(tick_boxes(COLUMNS, HEIGHT, start=start)) == count


def test_every_box_is_closed_above_and_below() -> None:
    """A row has the rule above it only where the row above has none."""
    width = COLUMNS.boxes
    later = tick_boxes(COLUMNS, HEIGHT, start=84, above=60)
    assert across(later, 0) == []
    ((left, right),) = across(later, HEIGHT)
    assert [left, right] == pytest.approx([19, width], abs=0.2)
    earlier = tick_boxes(COLUMNS, HEIGHT, start=60, above=84)
    ((left, right),) = across(earlier, 0)
    assert [left, right] == pytest.approx([0.1, 19], abs=0.2)
    first = tick_boxes(COLUMNS, HEIGHT, start=72, above=math.inf)
    ((left, right),) = across(first, 0)
    assert [left, right] == pytest.approx([9.5, width], abs=0.2)


def test_heads_are_the_tempos_of_the_ladder() -> None:
    texts = [word.text for run in box_heads(COLUMNS).runs for word in run.words]
    assert texts == ["60", "72", "84", "100", "date"]


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (PracticeRow("Porch", "bars 1-4", tempo="76"), "bars 1-4 · easy at 76"),
        (PracticeRow("Porch", "bar 2", tempo="under 40"), "bar 2 · easy under 40"),
        (
            PracticeRow(
                "Inside Porch", "bar 2", HoleMark((2,), True), HoleMark((5,), False),
                moves="2 holes, breath turns", tempo="full tempo",
            ),
            "bar 2 · 2 holes, breath turns · easy at full tempo",
        ),
        (PracticeRow("The whole tune", ""), ""),
    ],
)  # fmt: skip
def test_details_on_a_narrow_page(row: PracticeRow, words: str) -> None:
    assert details(row) == words
