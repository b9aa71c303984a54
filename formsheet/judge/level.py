"""The limits of each level of student. All numbers are our own choice.

Seconds are between two onsets. What goes beyond a limit is a warning. `formsheet explain levels`
prints the numbers with the words of `ASKED` and `ALIKE`.
"""

from __future__ import annotations

from typing import NamedTuple

from formsheet.vocabulary.facts import Level


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


class Asked(NamedTuple):
    """A limit in words."""

    what: str
    unit: str
    reason: str


#: The fields of `Limits`.
ASKED = {
    "deepest_bend": Asked(
        "deepest bend",
        "half steps",
        "A half step is the first bend that is learned; deeper ones need an ear for where to stop.",
    ),
    "overbends": Asked(
        "overblows and overdraws",
        "",
        "They need a harp that is set up for them and a mouth that bends well already.",
    ),
    "bends_in_a_row": Asked(
        "deep bends in a row",
        "notes",
        "The mouth holds a shape for each, and only a natural note lets the ear check the pitch.",
    ),
    "fastest_turn": Asked(
        "quickest turn of the breath",
        "seconds",
        "A turn of the breath begins in chest and belly; a few in a row are harder than one.",
    ),
    "slide_share": Asked(
        "a wide slide",
        "share of its time at ease",
        "Beginners look for the hole and need a little more; advanced players know the way.",
    ),
}

#: The limits that are the same for all levels, each with its value.
ALIKE = (
    (
        DEEP_BEND,
        Asked(
            "a bend counts as deep from",
            "half steps",
            "From here on the mouth changes its shape a good deal.",
        ),
    ),
    (
        TURNS_IN_A_ROW,
        Asked(
            "turns of the breath count from",
            "in a row",
            "One quick turn is easily done; a chain of them is not.",
        ),
    ),
    (
        WIDE_SLIDE,
        Asked("a slide counts as wide from", "holes", "The lips no longer feel where it ends."),
    ),
)
