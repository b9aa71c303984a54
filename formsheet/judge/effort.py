"""The time that a move from one note to the next takes: the effort of mouth and breath.

The slide follows Fitts' law: the time grows with the index of difficulty, here in the form
log2(1 + D/W) of MacKenzie, Human-Computer Interaction 7 (1992) 91 (Fitts, J. Exp. Psychology 47
(1954) 381, wrote log2(2A/W)). D is the number of holes moved, W the width of the target hole. The
terms for breath, bend and mouth are our own choice; what matters is the order in which they put
joins, see the study in DEVELOPERS.md.

Each constant is the time in seconds that a relaxed student, not a virtuoso, takes for that part.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from formsheet.music.tab import Tab

#: Seconds for any new note: hear it, shape it, start it.
NEW_NOTE = 0.14
#: Seconds per bit of Fitts' index: a slide of one hole is one bit, of three holes two bits.
SLIDE_PER_BIT = 0.09
#: Width of the target, in holes.
TARGET_WIDTH = 1.0
#: Seconds to turn the breath, lungs and mouth together.
BREATH_TURN = 0.07
#: Seconds for the first half step of a bend, and for each further half step: the mouth has to
#: find the pitch.
FIRST_BEND = 0.12
FURTHER_BEND = 0.07
#: Seconds to set up an overblow or overdraw.
OVERBEND = 0.3
#: Seconds to let go of a bend before the next note: the first half step, and each further one. The
#: mouth has to come back to the open note, or the next hole is flat.
FIRST_RELEASE = 0.05
FURTHER_RELEASE = 0.02
#: Seconds to let go of an overblow or overdraw.
OVERBEND_RELEASE = 0.1
#: Seconds to open or close the mouth from one shape to another: single, block, split.
NEW_SHAPE = 0.1
#: Seconds to make a top hole speak: the reeds are small, and the hole is narrow for the mouth.
TOP_HOLE = 0.04
FIRST_TOP_HOLE = 8


class Move(NamedTuple):
    """What changes from one note to the next."""

    holes: int  # that the mouth moves over
    turn: bool  # the breath turns
    bend: int  # half steps to bend into, deeper than or other than the note before
    release: int  # half steps to let go of, of the bend before
    overbend: bool  # an overblow or overdraw to set up
    let_go: bool  # of an overblow or overdraw
    new_shape: bool  # single, block, split
    top: bool  # to one of the holes 8 to 10

    @property
    def bits(self) -> float:
        """Index of difficulty of the slide, in bits (MacKenzie 1992)."""
        return index_of_difficulty(self.holes, TARGET_WIDTH)

    @property
    def seconds(self) -> float:
        """How long the move takes without hurry, in seconds."""
        return NEW_NOTE + self.effort

    @property
    def effort(self) -> float:
        """Seconds that the move takes beyond a note struck again."""
        bend = FIRST_BEND + FURTHER_BEND * (self.bend - 1) if self.bend else 0.0
        release = FIRST_RELEASE + FURTHER_RELEASE * (self.release - 1) if self.release else 0.0
        return (
            SLIDE_PER_BIT * self.bits
            + BREATH_TURN * self.turn
            + bend
            + release
            + OVERBEND * self.overbend
            + OVERBEND_RELEASE * self.let_go
            + NEW_SHAPE * self.new_shape
            + TOP_HOLE * self.top
        )


def index_of_difficulty(distance: float, width: float) -> float:
    """Fitts' index in bits, log2(1 + D/W); distance and width in the same unit, width above 0."""
    return math.log2(1 + distance / width)


@lru_cache(4096)  # a tune has few different moves, played often
def effort_of(first: Tab, second: Tab) -> float:
    """Seconds that the move between two marks of tab takes beyond a note struck again."""
    return move(first, second).effort


@lru_cache(4096)
def move(first: Tab, second: Tab) -> Move:
    """The move from one mark of tab to the next; a repeated mark needs only a new note."""
    same_note = first == second
    same_reed = (first.holes, first.breath) == (second.holes, second.breath)
    kept = min(first.bend, second.bend) if same_reed else 0  # of the bend
    return Move(
        holes=_apart(first, second),
        turn=first.breath is not second.breath,
        bend=0 if same_note else second.bend,
        release=first.bend - kept if not same_note else 0,
        overbend=second.overbend and not same_note,
        let_go=first.overbend and not same_note,
        new_shape=first.shape is not second.shape,
        top=not same_note and max(second.holes) >= FIRST_TOP_HOLE,
    )


def _apart(first: Tab, second: Tab) -> int:
    """Holes that the mouth moves over: of the same shape the lesser way of its two edges.

    From one shape to another the mouth opens or closes on the spot: there it is the way between the
    nearest edges, 0 where they overlap.
    """
    low, high = min(second.holes) - min(first.holes), max(second.holes) - max(first.holes)
    if first.shape is second.shape:
        return min(abs(low), abs(high))
    return max(min(second.holes) - max(first.holes), min(first.holes) - max(second.holes), 0)
