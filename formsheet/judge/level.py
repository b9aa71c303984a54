"""What each level of student can be asked to do. All numbers are our own choice.

Seconds are those between two onsets; a finding below them is a warning.
"""

from __future__ import annotations

from typing import NamedTuple

from formsheet.vocabulary.facts import Level


class Limits(NamedTuple):
    """Where a careful colleague would raise a hand."""

    deepest_bend: int  # half steps that pass without a word
    overbends: bool  # pass without a word
    bends_in_a_row: int  # deep bends struck one after another
    fastest_turn: float  # seconds between two notes on different breaths
    slide_share: float  # share of the time at ease that a wide slide must have


LIMITS = {
    Level.BEGINNER: Limits(1, False, 2, 0.24, 1.1),
    Level.IMPROVER: Limits(3, False, 3, 0.15, 0.85),
    Level.ADVANCED: Limits(3, True, 5, 0.1, 0.6),
}


def level_for(bend: int) -> Level | None:
    """The lowest level at which a bend of so many half steps passes; None if none does."""
    return next((level for level in Level if LIMITS[level].deepest_bend >= bend), None)


#: A bend counts as deep from here on, in half steps.
DEEP_BEND = 2
#: Turns of the breath in a row from which on they are told.
TURNS_IN_A_ROW = 3
#: Holes from which on a slide counts as wide.
WIDE_SLIDE = 4
