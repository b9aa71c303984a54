"""Marks that tell blow from draw: how far they stand from their number."""

from __future__ import annotations

import pytest

from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.mark_styles import MARK_STYLES, MarkStyle

OUTSIDE = [style for style in MARK_STYLES if style.height]


# Our own choice: a mark is parted from its number by 0.16 em.
@pytest.mark.limit("sheet.mark_styles.AWAY")
@pytest.mark.parametrize("style", OUTSIDE, ids=str)
def test_room_for_a_mark_and_the_space_before_it(style: MarkStyle) -> None:
    em = Font("regular", 14).mm
    assert style.outer_height(14) == pytest.approx((style.height + 0.16) * em)
