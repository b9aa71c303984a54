"""Which chorus stands on which page, how large, and what is left for other matter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..view import Chorus, HoleMark
from .form import (
    LEAST_GAP,
    ChorusPlan,
    DrawnChorus,
    Fitted,
    break_lines,
    draw_chorus,
    fit,
    fit_broken,
    plan_chorus,
    widest_gap,
)
from .lines import last_tab

CHORUS_TITLE = 7.5  # mm that the title of a chorus takes
BETWEEN = 6.0  # mm between two choruses on one page
SHARED_SIZE = 16.0  # pt: numbers are not made smaller than this to save a page
STUDY_GAP = 5.0  # mm over a line, at most, where study matter can follow on the page
LEAST_STUDY = 68.0  # mm of a page that are worth beginning the study matter in


@dataclass(frozen=True, slots=True)
class PlacedChorus:
    """A chorus and where it stands."""

    chorus: DrawnChorus
    new_page: bool
    left: float  # mm of the page below it


def place_choruses(
    choruses: Sequence[Chorus], room: float, first_depth: float, depth: float
) -> list[PlacedChorus]:
    """Choruses page by page: as many on one as fit at a good size, as large as they fit.

    `room` is the width of a page, `first_depth` and `depth` the heights of the first one and
    of each further one, in millimetres.
    """
    plans = [plan_chorus(chorus, room) for chorus in choruses]
    placed: list[PlacedChorus] = []
    before: HoleMark | None = None
    while len(placed) < len(plans):
        here = depth if placed else first_depth
        group, fitted = _group(plans[len(placed) :], here)
        last = len(placed) + len(group) == len(plans)
        for one in _placed(group, fitted, here, depth, before=before, last=last):
            placed.append(one if one.new_page or len(placed) else one)
        before = last_tab([bar for plan in group for bar in _bars(plan)], before)
    return placed
