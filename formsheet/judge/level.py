"""The limits of each level of student. All numbers are our own choice.

Seconds are between two onsets. What goes beyond a limit is reported. `formsheet explain levels`
prints the numbers with the words of `ASKED` and `ALIKE`.
"""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from fractions import Fraction
from typing import NamedTuple

from formsheet.vocabulary.facts import Level


class Limits(NamedTuple):
    """What a student of one level can be asked to play."""

    deepest_bend: int  # half steps
    overbends: bool
    top_bends: bool  # bends on holes 8 to 10
    highest_bend: int  # MIDI number
    bends_in_a_row: int  # deep ones
    bent_seconds: float  # of bent notes without a natural note or a rest
    fastest_turn: float  # seconds between two notes on different breaths
    slide_share: float  # least time for a wide slide, as a share of its time without hurry
    easy_share: float  # least tempo at which a move is easy, as a share of the tune's tempo
    mouth_changes: int  # in a row, between octave or block, bend and shake
    low_reed: float  # seconds that a low reed needs
    air: float  # seconds of a single note in or out without a rest
    licks: int  # different ones in a tune
    phrase: int  # bars without a rest or a repeat


LIMITS = {
    Level.BEGINNER: Limits(
        deepest_bend=1, overbends=False, top_bends=False, highest_bend=80, bends_in_a_row=2,
        bent_seconds=4, fastest_turn=0.24, slide_share=1.1, easy_share=0.5, mouth_changes=1,
        low_reed=0.3, air=12, licks=5, phrase=4,
    ),
    Level.IMPROVER: Limits(
        deepest_bend=3, overbends=False, top_bends=False, highest_bend=86, bends_in_a_row=3,
        bent_seconds=6, fastest_turn=0.15, slide_share=0.85, easy_share=0.4, mouth_changes=3,
        low_reed=0.2, air=16, licks=10, phrase=8,
    ),
    Level.ADVANCED: Limits(
        deepest_bend=3, overbends=True, top_bends=True, highest_bend=100, bends_in_a_row=5,
        bent_seconds=10, fastest_turn=0.1, slide_share=0.6, easy_share=0.3, mouth_changes=5,
        low_reed=0.14, air=22, licks=14, phrase=12,
    ),
}  # fmt: skip


def level_for(bend: int) -> Level | None:
    """The lowest level that allows a bend of so many half steps; None if none does."""
    return next((level for level in Level if LIMITS[level].deepest_bend >= bend), None)


#: Half steps from which on a bend counts as deep.
DEEP_BEND = 2
#: Number of fast breath turns in a row from which on they are reported.
TURNS_IN_A_ROW = 3
#: Number of holes from which on a slide counts as wide.
WIDE_SLIDE = 4
#: MIDI number below which a reed is slow to speak: G below middle C, the lowest of a G harp.
LOW_REED = 55
#: Beats of rest from which on a phrase is over.
PHRASE_REST = Fraction(1, 2)
#: Seconds between two notes under which a change of mouth shape counts as quick.
SOON = 0.4


class Asked(NamedTuple):
    """A limit in words."""

    what: str
    unit: str
    reason: str
    tab: tuple[str, ...] = ()  # harp and tab of each number, where they are pitches


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
    "top_bends": Asked(
        "bends on holes 8 to 10",
        "",
        "They are blown, against small reeds, and come after the draw bends are safe.",
    ),
    "highest_bend": Asked(
        "highest bend",
        "MIDI number",
        "The higher the reed, the less the mouth moves from one pitch to the next. Harps sound "
        "higher from G, the lowest, by C to F#, the highest; those called high are an octave up.",
        ("C 6d'", "F# 6d'", "F 10b'"),
    ),
    "bends_in_a_row": Asked(
        "deep bends in a row",
        "notes",
        "The mouth holds a shape for each, and only a natural note lets the ear check the pitch.",
    ),
    "bent_seconds": Asked(
        "bent notes without a break",
        "seconds",
        "To hold a bend tires, and the pitch creeps up; a natural note or a rest is a break.",
    ),
    "fastest_turn": Asked(
        "quickest turn of the breath",
        "seconds",
        "A turn of the breath begins in chest and belly; a few in a row are harder than one.",
    ),
    "slide_share": Asked(
        "time for a wide slide",
        "1 is unhurried",
        "Beginners look for the hole and need a little more; advanced players know the way.",
    ),
    "easy_share": Asked(
        "hardest move easy at",
        "share of the tempo",
        "Practice begins where a move is easy and goes up from there; from less than half of the "
        "tempo a beginner does not arrive in a few weeks.",
    ),
    "mouth_changes": Asked(
        "octave, bend, shake: quick changes",
        "in a row",
        "The mouth is open and low for an octave or a block, narrow and high for a bend, and moves "
        "for a shake.",
    ),
    "low_reed": Asked(
        "shortest note of a low reed",
        "seconds",
        "A long reed takes time to start, and more with a hesitant breath.",
    ),
    "air": Asked(
        "air without a rest",
        "seconds of a single note",
        "A chest holds more with practice. Draw fills it and blow empties it; blocks and low notes "
        "take more.",
    ),
    "licks": Asked(
        "different licks in a tune",
        "",
        "A beginner learns four or five in a week or two; the form does the rest.",
    ),
    "phrase": Asked(
        "a phrase without rest or repeat",
        "bars",
        "What is longer is not remembered in one piece.",
    ),
}

#: The limits that are the same for all levels, each with its value.
ALIKE = (
    (
        DEEP_BEND,
        Asked(
            "a bend is deep from",
            "half steps",
            "From here on the mouth changes its shape a good deal.",
        ),
    ),
    (
        LOW_REED,
        Asked(
            "a reed is low below",
            "MIDI number",
            "The lowest note of a G harp: longer reeds speak late. Only harps called low have "
            "them, on holes 1 to 3.",
            ("G 1b",),
        ),
    ),
    (
        SOON,
        Asked(
            "a change of the mouth is quick below",
            "seconds",
            "A quarter at 150; with more time the mouth settles.",
        ),
    ),
    (
        TURNS_IN_A_ROW,
        Asked(
            "quick turns of the breath count from",
            "in a row",
            "One is easily done; a chain of them is not.",
        ),
    ),
    (
        WIDE_SLIDE,
        Asked("a slide is wide from", "holes", "The lips no longer feel where it ends."),
    ),
    (
        float(PHRASE_REST),
        Asked(
            "a rest ends a phrase from",
            "beats",
            "A shorter one is heard as part of the rhythm.",
        ),
    ),
)
