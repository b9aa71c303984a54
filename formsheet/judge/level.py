"""The limits of each level of student. All numbers are our own choice.

Seconds are between two onsets. What goes beyond a limit is a warning.
"""

from __future__ import annotations

from typing import NamedTuple

from formsheet.lesson.model import Level


class Limits(NamedTuple):
    """What a student of one level can be asked to play."""

    deepest_bend: int  # half steps; deeper bends are reported
    overbends: bool  # whether overbends are allowed
    bends_in_a_row: int  # the most deep bends in a row; more are reported
    fastest_turn: float  # seconds between two notes on different breaths
    slide_share: float  # least time for a wide slide, as a share of its time without hurry


LIMITS = {
    Level.BEGINNER: Limits(1, False, 2, 0.24, 1.1),
    Level.IMPROVER: Limits(3, False, 3, 0.15, 0.85),
    Level.ADVANCED: Limits(3, True, 5, 0.1, 0.6),
}


def level_for(bend: int) -> Level | None:
    """The lowest level that allows a bend of so many half steps; None if none does."""
    return next((level for level in Level if LIMITS[level].deepest_bend >= bend), None)


#: Half steps from which on a bend counts as deep.
DEEP_BEND = 2
#: Number of fast breath turns in a row from which on they are reported.
TURNS_IN_A_ROW = 3
#: Number of holes from which on a slide counts as wide.
WIDE_SLIDE = 4
