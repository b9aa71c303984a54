"""What each level of student can be asked to do. All numbers are our own choice.

Seconds are those between two onsets; a finding below them is a warning. `formsheet explain levels`
prints the numbers with what `ASKED` and `ALIKE` say of them.
"""

from __future__ import annotations

from typing import NamedTuple

from formsheet.lesson.model import Level


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
        "Each takes strength and breath, and only a natural note lets the ear check the pitch.",
    ),
    "fastest_turn": Asked(
        "quickest turn of the breath",
        "seconds",
        "To turn the breath the whole body changes direction; a few in a row are harder than one.",
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
            "a bend counts as deep from", "half steps", "From here on the tongue moves far back."
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
