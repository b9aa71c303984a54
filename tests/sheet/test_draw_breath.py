"""Breaths: runs of notes of one direction."""

from __future__ import annotations

from fractions import Fraction as F

from formsheet.sheet.draw.breath import Breath, breaths
from formsheet.sheet.view import HoleMark
from tests.sheet.gallery import marks


def test_breaths_join_notes_of_one_direction_and_end_at_a_rest() -> None:
    assert breaths(marks("q 4d 5d e 4b - q 4b"), None) == [
        Breath(F(0), F(2), True),
        Breath(F(2), F(5, 2), False),
        Breath(F(3), F(4), False),
    ]


def test_a_hold_over_the_bar_line_keeps_the_breath_before_it() -> None:
    assert breaths(marks("h = q 4b -"), HoleMark((2,), draw=True))[0] == Breath(F(0), F(2), True)
