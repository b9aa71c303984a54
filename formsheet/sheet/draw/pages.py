"""Place choruses on pages: which page, which size, and the room left for other content."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.sheet.draw import chorus_title
from formsheet.sheet.draw.form import (
    LEAST_GAP,
    LEAST_SIZE,
    MOST_GAP,
    ChorusPlan,
    DrawnChorus,
    Fitted,
    Pages,
    break_lines,
    draw_chorus,
    fit,
    fit_broken,
    plan_chorus,
    widest_gap,
)
from formsheet.sheet.draw.holes import PLAIN_LOOK, Look
from formsheet.sheet.draw.lines import last_tab
from formsheet.sheet.view import Chorus, HoleMark

BETWEEN = 6.0  # mm between two choruses on one page
SHARED_SIZE = 16.0  # pt: numbers are not made smaller than this to save a page
STUDY_GAP = 4.0  # largest gap (mm) over a line if other content can follow on the page


@dataclass(frozen=True, slots=True)
class PlacedChorus:
    """A chorus with its place."""

    chorus: DrawnChorus
    new_page: bool
    left: float  # mm left on the page below it


def place_choruses(
    choruses: Sequence[Chorus],
    room: float,
    first_depth: float,
    depth: float,
    follows: float,
    look: Look = PLAIN_LOOK,
) -> list[PlacedChorus]:
    """Choruses page by page: as many on a page as fit at a good size, as large as possible.

    All in mm: `room` is the width of a page, `first_depth` and `depth` are the heights of the first
    page and of the others, `follows` the height of the first content after the choruses.
    """
    plans = [plan_chorus(chorus, room, look) for chorus in choruses]
    placed: list[PlacedChorus] = []
    before: HoleMark | None = None
    while rest := plans[len(placed) :]:
        here = depth if placed else first_depth
        below = _below(placed, rest[0])
        if below is not None:
            here = below
        group, fitted = _group(rest[:1] if below is not None else rest, here)
        if fitted is None:
            shared, gap = _broken(group[0], here, depth)
            pages = [shared]
        else:
            gap = _gap(group, fitted, here, follows if len(group) == len(rest) else None)
            pages = [[lines] for lines in fitted.lines]
        left = depth if len(pages[0]) > 1 else here - _titles(group)
        for i, (plan, shared) in enumerate(zip(group, pages, strict=True)):
            drawn = draw_chorus(plan, shared, gap, before)
            before = last_tab(plan.bars, before)
            left -= drawn.last_depth
            new_page = bool(placed) and i == 0 and below is None
            placed.append(PlacedChorus(drawn, new_page, left))
    return placed


def _below(placed: Sequence[PlacedChorus], plan: ChorusPlan) -> float | None:
    """The depth (mm) left under the end of a chorus of several pages, for its changed bars."""
    if not placed or not plan.chorus.across or len(placed[-1].chorus.pages) == 1:
        return None
    room = placed[-1].left - BETWEEN
    return room if fit([plan], room - _titles([plan])) else None


def leaves_room(
    chorus: Chorus, room: float, depth: float, height: float, look: Look = PLAIN_LOOK
) -> bool:
    """Whether other content of a height (mm) fits above a chorus without crowding it."""
    plan = plan_chorus(chorus, room, look)
    depth -= _titles([plan])
    alone, below = fit([plan], depth), fit([plan], depth - height)
    if alone is None:
        lines = fit_broken(plan).lines[0]
        return len(break_lines(lines, depth - height, depth)) == len(
            break_lines(lines, depth, depth)
        )
    return (
        below is not None
        and below.tight == alone.tight
        and below.size >= min(alone.size, SHARED_SIZE)
    )


def _titles(group: Sequence[ChorusPlan]) -> float:
    """The height (mm) of titles and spaces between choruses on one page."""
    titled = sum(bool(plan.chorus.title or plan.chorus.note) for plan in group)
    return chorus_title.HEIGHT * titled + BETWEEN * (len(group) - 1)


def _group(rest: Sequence[ChorusPlan], depth: float) -> tuple[list[ChorusPlan], Fitted | None]:
    """The choruses on the next page with their setting; None if the first one is too high."""
    group = [rest[0]]
    fitted = fit(group, depth - _titles(group))
    for plan in rest[1:]:
        if fitted is None:
            break
        wider = [*group, plan]
        least = min(SHARED_SIZE, *(one.largest for one in wider))
        part = bool(plan.chorus.across)  # changed bars of the chorus before
        least = min(least, LEAST_SIZE) if part else least
        joint = fit(wider, depth - _titles(wider), least, tight=part and fitted.tight)
        if joint is None:
            break
        group, fitted = wider, joint
    return group, fitted


def _gap(group: Sequence[ChorusPlan], fitted: Fitted, depth: float, follows: float | None) -> float:
    """The gap (mm) over a line on a page; it leaves room for `follows` (mm) if that is given."""
    spare = depth - _titles(group) - fitted.height
    gaps = max(1, sum(len(lines) - 1 for lines in fitted.lines))
    if follows is not None and spare - gaps * (STUDY_GAP - LEAST_GAP) >= follows:
        return STUDY_GAP
    return LEAST_GAP + min(MOST_GAP - LEAST_GAP, spare / gaps)


def _broken(plan: ChorusPlan, depth: float, later: float) -> tuple[Pages, float]:
    """The lines of a chorus page by page, and the gap (mm) over each of them."""
    pages = break_lines(fit_broken(plan).lines[0], depth - _titles([plan]), later)
    return pages, widest_gap(pages, [depth - _titles([plan])] + [later] * (len(pages) - 1))
