"""Choruses as lines of bars that fit the paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from formsheet.sheet.draw.holes import PLAIN_LOOK, SIZES, Look
from formsheet.sheet.draw.lines import (
    Line,
    bar_size,
    bar_width,
    common_size,
    draw_line,
    last_tab,
    plan_line,
)
from formsheet.sheet.draw.rows import BarPlan, Rows, plan_rows
from formsheet.sheet.draw.scale import bar_scale
from formsheet.sheet.view import Bar, Chorus, Ending, HoleMark

ACROSS = 4  # bars a line, as players count a form
NARROW = 200.0  # mm: a narrower page has two bars a line
LEAST_GAP, MOST_GAP = 1.2, 12.0  # mm over a line
APART = 3  # ratio of a gap between lines of the form to one within a broken line
LEAST_SIZE = 13.0  # pt: numbers are not made smaller to fit the height of a page
TIGHT_SIZE = 15.0  # pt: at this size and below, rows are set tight before numbers get smaller


@dataclass(frozen=True, slots=True)
class DrawnChorus:
    """A drawn chorus: its lines, page by page.

    The space over the first line of a page is LEAST_GAP, over the others `gap` (mm) on average:
    less between parts of one line of the form, more between lines.
    """

    title: str
    note: str
    pages: tuple[tuple[Line, ...], ...]
    gap: float

    @property
    def last_depth(self) -> float:
        """Height (mm) of its lines on its last page."""
        return LEAST_GAP - self.gap + sum(line.height + self.gap for line in self.pages[-1])


@dataclass(frozen=True, slots=True)
class _Part:
    """The bars on one line, and their width (mm)."""

    bars: tuple[Bar, ...]
    width: float
    size: float  # largest size in pt
    pickup: Bar | None
    following: Bar | None
    continues: bool = False  # continues a line of the form from the line before
    ending: Ending | None = None  # how the chorus ends here
    opens_repeat: bool = False

    def planned(self, size: float, look: Look, *, tight: bool = False) -> tuple[BarPlan, ...]:
        """Its bars with numbers of at most `size` (pt) that fit; `tight`: see `BarPlan`."""
        return plan_line(
            self.bars,
            self.width,
            min(size, self.size),
            sizes=look.sizes(),
            pickup=self.pickup,
            following=self.following,
            ending=self.ending,
            opens_repeat=self.opens_repeat,
            tight=tight,
            marks=look.marks,
        )


@dataclass(frozen=True, slots=True)
class ChorusPlan:
    """A chorus divided into lines whose heights are not yet chosen."""

    chorus: Chorus
    parts: tuple[_Part, ...]
    gutter: float  # mm before each line, under a pick-up bar
    look: Look = PLAIN_LOOK

    @property
    def bars(self) -> tuple[Bar, ...]:
        """All its bars, without a pick-up bar."""
        return tuple(bar for part in self.parts for bar in part.bars)

    @property
    def largest(self) -> float:
        """The largest size (pt) of its numbers."""
        return max((part.size for part in self.parts), default=SIZES[-1])


@dataclass(frozen=True, slots=True)
class _Planned:
    plans: tuple[BarPlan, ...]
    rows: Rows
    continues: bool


Pages = Sequence[Sequence[_Planned]]
"""The lines of a chorus, page by page."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """Choruses set at a common size: a list of lines for each chorus."""

    lines: tuple[tuple[_Planned, ...], ...]
    size: float
    tight: bool

    @property
    def height(self) -> float:
        """Height (mm) of all lines with the least gaps."""
        return sum(_height(lines) for lines in self.lines)


def bars_across(room: float) -> int:
    """The number of bars on a line in a page width of `room` millimetres."""
    return ACROSS if room >= NARROW else ACROSS // 2


def in_fours(lines: Sequence[Sequence[Bar]], across: int = ACROSS) -> Iterator[tuple[Bar, ...]]:
    """Lines of the form, split to at most `across` bars."""
    for line in lines:
        for start in range(0, len(line), across):
            yield tuple(line[start : start + across])


def _halves(
    line: tuple[Bar, ...], width: float, look: Look
) -> Iterator[tuple[tuple[Bar, ...], float]]:
    """The whole line, or halves with wider bars if its numbers do not fit."""
    sizes = look.sizes()
    if len(line) == 1 or all(
        bar_size(bar, bar_scale(width, bar.length), sizes, look.marks) for bar in line
    ):
        yield line, width
        return
    half = (len(line) + 1) // 2
    wider = width * len(line) / half
    for part in (line[:half], line[half:]):
        yield from _halves(part, wider, look)


def plan_chorus(chorus: Chorus, room: float, look: Look = PLAIN_LOOK) -> ChorusPlan:
    """Divide a chorus into lines in a page width of `room` millimetres."""
    sizes = look.sizes()
    lines = list(in_fours(chorus.lines, bars_across(room)))
    starts = {line[0].number for line in in_fours(chorus.lines)}
    across = max((len(line) for line in lines), default=ACROSS)
    if chorus.across:
        across = min(chorus.across, bars_across(room))
    width = bar_width(room, across, chorus.pickup)
    bars = [bar for line in lines for bar in line]
    found = [part for line in lines for part in _halves(line, width, look)]
    whole = [bar for part, wide in found if wide == width for bar in part]
    common = common_size(whole, width, sizes, look.marks)
    parts: list[_Part] = []
    done = 0
    for part, wide in found:
        done += len(part)
        if chorus.pickup and not parts and wide != width:  # the pick-up is widened like its bars
            wide = bar_width(room, len(part), chorus.pickup)
        size = common if wide == width else min(common, common_size(part, wide, sizes, look.marks))
        following = bars[done] if done < len(bars) else None
        pickup = None if parts else chorus.pickup
        parts.append(
            _Part(
                part, wide, size, pickup, following,
                continues=part[0].number not in starts,
                ending=None if following else chorus.ending,
                opens_repeat=chorus.opens_repeat and not parts,
            )
        )  # fmt: skip
    return ChorusPlan(chorus, tuple(parts), room - across * width, look)


def _plan(parts: Sequence[_Part], size: float, look: Look, *, tight: bool) -> tuple[_Planned, ...]:
    planned = []
    for part in parts:
        plans = part.planned(size, look, tight=tight)
        planned.append(_Planned(plans, plan_rows(plans), part.continues))
    return tuple(planned)


def _height(lines: Sequence[_Planned]) -> float:
    return sum(line.rows.height + LEAST_GAP for line in lines)


def fit(
    choruses: Sequence[ChorusPlan], depth: float, least: float = LEAST_SIZE, *, tight: bool = True
) -> Fitted | None:
    """The largest setting of these choruses that fits a depth (mm); None if none fits.

    `least`: the smallest size (pt) of numbers; `tight`: rows may be set tight.
    """
    largest = max(plan.largest for plan in choruses)
    sizes = [size for size in SIZES if least <= size <= largest] or [largest]
    for size in sizes:
        for closer in (False, True) if tight and size <= TIGHT_SIZE else (False,):
            fitted = _fitted(choruses, size, tight=closer)
            if fitted.height <= depth:
                return fitted
    return None


def fit_broken(plan: ChorusPlan) -> Fitted:
    """The setting of a chorus that takes several pages."""
    return _fitted([plan], min(plan.largest, TIGHT_SIZE), tight=False)


def _fitted(choruses: Sequence[ChorusPlan], size: float, *, tight: bool) -> Fitted:
    lines = tuple(_plan(plan.parts, size, plan.look, tight=tight) for plan in choruses)
    return Fitted(lines, size, tight)


def break_lines(lines: Sequence[_Planned], depth: float, later_depth: float) -> Pages:
    """Lines divided evenly over as few pages as possible.

    `depth` and `later_depth` are the heights (mm) of the first page and of the others.
    """
    for pages in range(1, len(lines) + 1):
        for first in range(ceil(len(lines) / pages), 0, -1):
            later = lines[first:]
            each = ceil(len(later) / max(1, pages - 1)) or 1
            shared = [lines[:first], *(later[i : i + each] for i in range(0, len(later), each))]
            if (
                len(shared) <= pages
                and _height(shared[0]) <= depth
                and all(_height(page) <= later_depth for page in shared[1:])
            ):
                return shared
    return [[line] for line in lines]


def widest_gap(pages: Pages, depths: Sequence[float]) -> float:
    """The largest gap (mm) over lines that are not the first of a page, at most MOST_GAP."""
    spare = [
        (depth - _height(page)) / max(1, len(page) - 1)
        for page, depth in zip(pages, depths, strict=True)
    ]
    return LEAST_GAP + min(MOST_GAP - LEAST_GAP, max(0.0, min(spare)))


def _gaps(page: Sequence[_Planned], gap: float) -> list[float]:
    """The gap (mm) over each line of a page: `gap` on average, less within a line of the form."""
    spare = (gap - LEAST_GAP) * (len(page) - 1)
    shares = [1 if line.continues else APART for line in page[1:]]
    return [LEAST_GAP, *(LEAST_GAP + spare * share / sum(shares) for share in shares)]


def draw_chorus(
    plan: ChorusPlan,
    pages: Pages,
    gap: float,
    before: HoleMark | None = None,
) -> DrawnChorus:
    """Draw the lines of a chorus; `before` is the tab that may be held into it."""
    drawn = []
    for page in pages:
        drawn_page = []
        for line, over in zip(page, _gaps(page, gap), strict=True):
            indent = 0.0 if line.plans[0].bar is plan.chorus.pickup else plan.gutter
            made = draw_line(line.plans, line.rows, before=before, indent=indent)
            drawn_page.append(replace(made, over=over))
            before = last_tab([plan.bar for plan in line.plans], before)
        drawn.append(tuple(drawn_page))
    return DrawnChorus(plan.chorus.title, plan.chorus.note, tuple(drawn), gap)
