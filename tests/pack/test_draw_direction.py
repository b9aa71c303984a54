"""Marks that tell blow from draw: how far they stand from their number."""

from __future__ import annotations

import pytest

from formsheet.pack.draw.direction import outer_height
from formsheet.pack.draw.metrics import Font
from formsheet.pack.options import MarkStyle


# Our own choice: a mark is parted from its number by 0.16 em, and is itself so high (in em).
@pytest.mark.limit("pack.draw.direction.AWAY")
@pytest.mark.parametrize(("marks", "high"), [("arrows", 0.52), ("signs", 0.40)])
def test_room_for_a_mark_and_the_space_before_it(marks: MarkStyle, high: float) -> None:
    em = Font("regular", 14).mm
    assert outer_height(marks, 14) == pytest.approx((high + 0.16) * em)
