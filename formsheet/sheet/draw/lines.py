"""Lines of bars: sizes and rows are chosen for the whole line, then each bar is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.sheet.draw.bar import draw_bar
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.holes import SIZES, NumberStyle, best_style, depth, drop
from formsheet.sheet.draw.rows import BarPlan, Degrees, Rows, place_words
from formsheet.sheet.draw.scale import INSET, Scale, bar_scale, part_scale
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle
from formsheet.sheet.view import Bar, Ending, HoleMark

COMMON = Fraction(3, 4)  # share of bars in which numbers of the common size fit

SPREAD = 3.0  # most pt between the common size and the smallest


@dataclass(frozen=True, slots=True)
class Image:
    """A drawing with its alternative text."""

    drawing: Canvas
    spoken: str


@dataclass(frozen=True, slots=True)
class Line:
    """Bars side by side; `indent` is the space (mm) before the first, `over` that above."""

    images: tuple[Image, ...]
    indent: float
    height: float
    over: float = 0.0


def bar_size(
    bar: Bar, scale: Scale, sizes: Sequence[float] = SIZES, marks: MarkStyle = BREATH_LINE
) -> float | None:
    """The largest size (pt) at which the bar's numbers fit, or None."""
    style = best_style(bar.marks, scale, sizes, marks)
    return style.size if style else None


def common_size(
    bars: Sequence[Bar],
    width: float,
    sizes: Sequence[float] = SIZES,
    marks: MarkStyle = BREATH_LINE,
) -> float:
    """The size (pt) of most bars: three quarters of them fit, and the densest is not far below."""
    found = [
        bar_size(bar, bar_scale(width, bar.length), sizes, marks) or sizes[-1]
        for bar in bars
        if not bar.again
    ]
    need = len(found) * COMMON
    common = next((s for s in sizes if sum(size >= s for size in found) >= need), sizes[-1])
    return min(common, min(found, default=common) + SPREAD)


def pickup_start(bar: Bar) -> Fraction:
    """The beat in which a pick-up bar begins to sound."""
    first = next((mark.onset for mark in bar.marks if not mark.is_rest), Fraction(0))
    return first // bar.beat * bar.beat


def pickup_share(pickup: Bar) -> float:
    """The share of its bar that a pick-up takes, 0 to 1."""
    return float(1 - pickup_start(pickup) / pickup.length)


def bar_width(room: float, across: int, pickup: Bar | None) -> float:
    """Width (mm) of each of `across` equal bars after a pick-up, in `room` millimetres."""
    share = 0.0 if pickup is None else pickup_share(pickup)
    fixed = 0.0 if pickup is None else INSET * (1 - share)
    return (room - fixed) / (across + share)


def last_tab(bars: Sequence[Bar], before: HoleMark | None) -> HoleMark | None:
    """The tab of the last note in these bars, else `before`."""
    for bar in reversed(bars):
        for mark in reversed(bar.marks):
            if mark.tab is not None:
                return mark.tab
            if not mark.hold:
                return None
    return before


def plan_line(
    bars: Sequence[Bar],
    width: float,
    size: float,
    *,
    sizes: Sequence[float] = SIZES,
    pickup: Bar | None = None,
    following: Bar | None = None,
    ending: Ending | None = None,
    opens_repeat: bool = False,
    degrees: Sequence[Degrees] = (),
    tight: bool = False,
    marks: MarkStyle = BREATH_LINE,
) -> tuple[BarPlan, ...]:
    """Bars of equal width (mm), numbers at `size` (pt) or as large as they fit.

    `following` is the bar after the line, if any; `ending`: how the chorus ends in it.
    """
    plans = []
    if pickup is not None:
        unit = bar_scale(width, bars[0].length).unit
        scale = part_scale(unit, pickup_start(pickup), pickup.length)
        plans.append(BarPlan(pickup, scale, NumberStyle(size, marks=marks), tight=tight))
    for i, bar in enumerate(bars):
        scale = bar_scale(width, bar.length)
        allowed = [s for s in sizes if s <= size]
        style = best_style(bar.marks, scale, allowed, marks)
        style = style or NumberStyle(sizes[-1], roof=True, marks=marks)
        after = bars[i + 1] if i + 1 < len(bars) else following
        plans.append(
            BarPlan(
                bar,
                scale,
                style,
                degrees=degrees[i] if degrees else (),
                tight=tight,
                closes=(ending or "line") if i + 1 == len(bars) else "",
                opens_repeat=opens_repeat and i == 0,
                lick_ends=after is None or after.starts_lick or after.lick != bar.lick,
            )
        )
    if marks.letters and any(plan.style.roof for plan in plans):  # the same for the whole line
        plans = [replace(plan, style=replace(plan.style, roof=True)) for plan in plans]
    dropped = max(drop(plan.bar.marks, plan.style) for plan in plans)
    low = 0.0
    if any(degrees):  # all in one row
        low = max(depth(p.bar.marks, p.style, draw=True, dropped=dropped) for p in plans)
    return tuple(place_words(replace(plan, dropped=dropped, low=low)) for plan in plans)


def draw_line(
    plans: Sequence[BarPlan],
    rows: Rows,
    *,
    before: HoleMark | None = None,
    indent: float = 0.0,
    heading: bool = True,
) -> Line:
    """Draw the bars of a line; `before` is the tab that may be held into it."""
    images = []
    for plan in plans:
        drawing = draw_bar(plan, rows, before=before, heading=heading)
        images.append(Image(drawing, plan.bar.spoken))
        before = last_tab([plan.bar], before)
    return Line(tuple(images), indent, rows.height)
