"""A chorus as lines of bars that fit the paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from ..view import Bar, Chorus, HoleMark
from .holes import SIZES
from .lines import Line, bar_size, bar_width, common_size, draw_line, last_tab, plan_line
from .rows import BarPlan, Rows, plan_rows
from .scale import bar_scale

ACROSS = 4  # bars a line, as players count a form
LEAST_GAP, MOST_GAP = 1.4, 9.0  # mm over a line
LEAST_SIZE = 13.0  # pt: numbers are not made smaller for the sake of the page's height
TIGHT_SIZE = 15.0  # pt: from here down, rows are set tight before numbers get smaller


@dataclass(frozen=True, slots=True)
class DrawnChorus:
    """A chorus ready to be set: its lines, page by page; `gap` (mm) stands over each line."""

    title: str
    note: str
    pages: tuple[tuple[Line, ...], ...]
    gap: float

    @property
    def last_depth(self) -> float:
        """Height (mm) of its lines on the last page that it takes."""
        return sum(line.height + self.gap for line in self.pages[-1])


@dataclass(frozen=True, slots=True)
class _Part:
    """Bars that stand on one line, and their width (mm)."""

    bars: tuple[Bar, ...]
    width: float
    size: float  # pt, at most
    pickup: Bar | None
    following: Bar | None


@dataclass(frozen=True, slots=True)
class _Planned:
    plans: tuple[BarPlan, ...]
    rows: Rows


def in_fours(lines: Sequence[Sequence[Bar]]) -> Iterator[tuple[Bar, ...]]:
    """Lines of the form, cut to four bars at most."""
    for line in lines:
        for start in range(0, len(line), ACROSS):
            yield tuple(line[start : start + ACROSS])


def _halves(line: tuple[Bar, ...], width: float) -> Iterator[tuple[tuple[Bar, ...], float]]:
    """The line whole, or in halves of wider bars while its numbers do not fit."""
    if len(line) == 1 or all(bar_size(bar, bar_scale(width, bar.length)) for bar in line):
        yield line, width
        return
    half = (len(line) + 1) // 2
    wider = width * len(line) / half
    for part in (line[:half], line[half:]):
        yield from _halves(part, wider)


def _parts(chorus: Chorus, width: float) -> list[_Part]:
    lines = list(in_fours(chorus.lines))
    bars = [bar for line in lines for bar in line]
    found = [part for line in lines for part in _halves(line, width)]
    common = common_size([bar for part, wide in found if wide == width for bar in part], width)
    parts: list[_Part] = []
    done = 0
    for part, wide in found:
        done += len(part)
        size = common if wide == width else min(common, common_size(part, wide))
        following = bars[done] if done < len(bars) else None
        pickup = None if parts else chorus.pickup
        parts.append(_Part(part, wide, size, pickup, following))
    return parts


def _plan(parts: Sequence[_Part], size: float, *, tight: bool) -> list[_Planned]:
    planned = []
    for part in parts:
        plans = plan_line(
            part.bars,
            part.width,
            min(size, part.size),
            pickup=part.pickup,
            following=part.following,
            final=part.following is None,
        )
        planned.append(_Planned(plans, plan_rows(plans, tight=tight)))
    return planned


def _height(lines: Sequence[_Planned]) -> float:
    return sum(line.rows.height + LEAST_GAP for line in lines)


def _fit(parts: Sequence[_Part], depth: float) -> list[_Planned]:
    """The largest setting that fits the depth; else the one to be broken over pages."""
    largest = max((part.size for part in parts), default=SIZES[-1])
    sizes = [size for size in SIZES if LEAST_SIZE <= size <= largest] or [largest]
    tries = [(size, tight) for size in sizes for tight in (False, True)]
    for size, tight in tries:
        if tight and size > TIGHT_SIZE:
            continue
        lines = _plan(parts, size, tight=tight)
        if _height(lines) <= depth:
            return lines
    return _plan(parts, min(largest, TIGHT_SIZE), tight=False)


def _pages(lines: list[_Planned], depth: float, later_depth: float) -> list[list[_Planned]]:
    """Lines shared out over as few pages as hold them, as evenly as they fit."""
    for pages in range(1, len(lines) + 1):
        each = ceil(len(lines) / pages)
        shared = [lines[i : i + each] for i in range(0, len(lines), each)]
        if _height(shared[0]) <= depth and all(_height(s) <= later_depth for s in shared[1:]):
            return shared
    return [[line] for line in lines]


def draw_chorus(
    chorus: Chorus,
    room: float,
    depth: float,
    later_depth: float,
    before: HoleMark | None = None,
) -> DrawnChorus:
    """Draw a chorus into a width and, if it can be, one height; all in millimetres.

    `later_depth` is the height of a further page; `before` is the tab that may sound on.
    """
    across = max((len(line) for line in in_fours(chorus.lines)), default=ACROSS)
    width = bar_width(room, across, chorus.pickup)
    lines = _fit(_parts(chorus, width), depth)
    pages = _pages(lines, depth, later_depth)
    spare = min(
        (room_left - _height(page)) / len(page)
        for page, room_left in zip(pages, [depth] + [later_depth] * len(pages), strict=False)
    )
    gap = LEAST_GAP + min(MOST_GAP - LEAST_GAP, max(0.0, spare))
    gutter = room - across * width
    drawn = []
    for page in pages:
        drawn_page = []
        for line in page:
            indent = 0.0 if line.plans[0].bar is chorus.pickup else gutter
            drawn_page.append(draw_line(line.plans, line.rows, before=before, indent=indent))
            before = last_tab([plan.bar for plan in line.plans], before)
        drawn.append(tuple(drawn_page))
    return DrawnChorus(chorus.title, chorus.note, tuple(drawn), gap)
