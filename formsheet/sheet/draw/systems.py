"""A chorus as lines of bars: how many bars a line, how large the figures, how high each line.

Columns are the same in all lines; a bar that is much denser than its neighbours may be wider.
Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import ceil

from formsheet.sheet.draw.bar import (
    BarPlan,
    Bracket,
    Ink,
    Lanes,
    draw_bar,
    lanes_of,
    lower_ink,
    syllable_size,
    upper_ink,
)
from formsheet.sheet.draw.bar_head import HeadRow, head_places, title_fits
from formsheet.sheet.draw.bar_lines import OUTSIDE, REPEAT_ROOM
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.figures import ONE_FIGURE
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import CLEAR, INSET, MID, Measures
from formsheet.sheet.draw.metrics import MM_PER_PT
from formsheet.sheet.draw.note_box import OUTLINE, airy_size, figure_em, stacked
from formsheet.sheet.draw.notes import notes_of
from formsheet.sheet.draw.scale import bar_scale, part_scale
from formsheet.sheet.view import Bar, Chorus, HoleMark

ACROSS = 4  # bars a line, as players count a form
LEAST_PAD, MOST_PAD = 0.8, 1.4
BEFORE_REPEAT = OUTSIDE + 0.9  # from the box of a pick-up to the line at which a repeat begins
WIDER = 1.4  # a lone dense bar may be so many times as wide as the others
STACK_SHARE = 0.85  # of other figures: those of chords may be so much smaller


@dataclass(frozen=True, slots=True)
class Row:
    """Bars side by side, before they are measured."""

    bars: tuple[Bar, ...]
    column: int  # of the first bar, from 0
    starts_line: bool  # a line of the form begins here
    bracket: tuple[str, int, int] | None = None  # words, first and last bar under it
    bracket_goes_on: bool = False  # in the next row
    bracket_comes_on: bool = False  # from the row before
    instead: bool = False  # it stands under the bars that it replaces


@dataclass(frozen=True, slots=True)
class Image:
    """A drawing of a bar with its place on the line (mm) and its alternative text."""

    drawing: Canvas
    x: float
    spoken: str


@dataclass(frozen=True)
class System:
    """A measured line of bars."""

    row: Row
    plans: tuple[BarPlan, ...]
    xs: tuple[float, ...]
    lanes: Lanes

    @property
    def height(self) -> float:
        """Its height, from the row of chords to its lowest ink."""
        return self.lanes.height

    @cached_property
    def upper(self) -> tuple[Ink, ...]:
        """Its upper edge."""
        return self._edge(upper_ink)

    @cached_property
    def lower(self) -> tuple[Ink, ...]:
        """Its lower edge."""
        return self._edge(lower_ink)

    def _edge(self, of: Callable[[BarPlan, Lanes], Iterator[Ink]]) -> tuple[Ink, ...]:
        return tuple(
            Ink(ink.left + x, ink.right + x, ink.y)
            for plan, x in zip(self.plans, self.xs, strict=True)
            for ink in of(plan, self.lanes)
        )

    def step(self, following: System) -> float:
        """From its top to that of the line below it, as close as their ink allows."""
        return max(
            low.y - high.y + CLEAR
            for low in self.lower
            for high in following.upper
            if low.left < high.right + CLEAR / 2 and high.left < low.right + CLEAR / 2
        )

    def images(self) -> Iterator[Image]:
        """Its bars, drawn."""
        for plan, x in zip(self.plans, self.xs, strict=True):
            drawing = draw_bar(plan, self.lanes)
            yield Image(drawing, x + drawing.left, plan.bar.spoken)


def last_tab(bars: Sequence[Bar], before: HoleMark | None) -> HoleMark | None:
    """The tab of the last note in these bars, else `before`."""
    for bar in reversed(bars):
        for mark in reversed(bar.marks):
            if mark.tab is not None:
                return mark.tab
            if not mark.hold:
                return None
    return before


def pickup_share(pickup: Bar | None) -> float:
    """The share of its bar that a pick-up takes, 0 to 1; whole beats."""
    if pickup is None:
        return 0.0
    first = next((mark.onset for mark in pickup.marks if not mark.is_rest), pickup.length)
    return float(1 - first // pickup.beat * pickup.beat / pickup.length)


def pickup_width(pickup: Bar, unit: float) -> float:
    """The width of a pick-up; `unit`: mm a quarter."""
    return INSET + pickup_share(pickup) * float(pickup.length) * unit


def bar_width(room: float, across: int, pickup: Bar | None) -> float:
    """The width of each of `across` equal bars, after a pick-up."""
    if pickup is None:
        return room / across
    share = pickup_share(pickup)
    return (room - INSET * (1 - share)) / (across + share)


@dataclass(frozen=True, slots=True)
class Demand:
    """The room that the figures of a note need."""

    quarters: float  # length of its box
    ems: float  # width of its figures, less where they may be smaller than others


def demands(bar: Bar, look: Look) -> tuple[Demand, ...]:
    """What the struck notes of a bar need; each different demand once."""
    found = {(note.end - note.onset, note.tab) for note in notes_of(bar.marks, None) if note.struck}
    return tuple(
        Demand(
            float(length),
            figure_em(tab, look) * MM_PER_PT * (STACK_SHARE if stacked(tab) else 1.0),
        )
        for length, tab in found
    )


def hole_size(needed: Sequence[Demand], unit: float, measures: Measures) -> float:
    """The largest size (pt) at which all single figures of a bar fit; `unit`: mm a quarter."""
    rooms = ((each.quarters * unit - measures.white - OUTLINE, each.ems) for each in needed)
    return min((airy_size(room, ems, measures) for room, ems in rooms), default=1000.0)


@dataclass(frozen=True)
class Division:
    """A chorus divided into rows of at most `across` bars in a width of `room`."""

    chorus: Chorus
    changed: tuple[Chorus, ...]  # bars that replace some of its own, last times
    across: int
    room: float
    look: Look

    @cached_property
    def width(self) -> float:
        """The width of a bar."""
        return bar_width(self._bars_room, self.across, self.chorus.pickup)

    @property
    def _bars_room(self) -> float:
        """Without what heavy lines need outside their bars."""
        opens = self.chorus.pickup is not None and self.chorus.opens_repeat
        return self.room - OUTSIDE - (BEFORE_REPEAT if opens else 0.0)

    @property
    def indent(self) -> float:
        """Before the first bar of each line: the pick-up's width."""
        return self.room - OUTSIDE - self.across * self.width

    @cached_property
    def demands(self) -> tuple[tuple[Demand, ...], ...]:
        """What the bars of each row need, bar after bar."""
        return tuple(demands(bar, self.look) for row in self.rows for bar in row.bars)

    @cached_property
    def _first_bars(self) -> tuple[int, ...]:
        """For each row, the place of its first bar in `demands`."""
        counts = [len(row.bars) for row in self.rows]
        return tuple(sum(counts[:at]) for at in range(len(counts)))

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """Its rows, then those that replace bars."""
        return (*self._own(), *(row for each in self.changed for row in self._instead(each)))

    def _pieces(self) -> Iterator[tuple[int, int, bool]]:
        """First and end of each row as positions in the chorus; whether a line begins there."""
        done = 0
        for line in self.chorus.lines:
            parts = ceil(len(line) / self.across) or 1
            each = ceil(len(line) / parts)
            for start in range(0, len(line), each):
                yield done + start, done + min(start + each, len(line)), start == 0
            done += len(line)

    def _own(self) -> Iterator[Row]:
        bars = [bar for line in self.chorus.lines for bar in line]
        replaced = {place for each in self.changed for place in each.places}
        words = self.chorus.times
        for first, end, starts in self._pieces():
            covered = [at for at in range(first, end) if at in replaced]
            bracket = None
            if covered:
                bracket = (words, covered[0] - first, covered[-1] - first)
            yield Row(
                tuple(bars[first:end]), 0, starts, bracket,
                bracket_goes_on=bool(covered) and covered[-1] + 1 in replaced,
                bracket_comes_on=bool(covered) and covered[0] - 1 in replaced,
            )  # fmt: skip

    def _instead(self, changed: Chorus) -> Iterator[Row]:
        bars = dict(zip(changed.places, (b for line in changed.lines for b in line), strict=True))
        words = changed.title
        for first, end, starts in self._pieces():
            here = [at for at in range(first, end) if at in bars]
            runs: list[list[int]] = []
            for at in here:
                if runs and runs[-1][-1] == at - 1:
                    runs[-1].append(at)
                else:
                    runs.append([at])
            for run in runs:
                row = tuple(bars[at] for at in run)
                bracket = (words, 0, len(row) - 1)
                yield Row(
                    row, run[0] - first, starts, bracket, instead=True,
                    bracket_goes_on=run[-1] + 1 in bars, bracket_comes_on=run[0] - 1 in bars,
                )  # fmt: skip

    def widths(self, at: int, measures: Measures, least: float) -> tuple[float, ...] | None:
        """The widths of the bars of row `at` with figures of `least` pt; None if impossible."""
        first, bars = self._first_bars[at], len(self.rows[at].bars)
        needed = self.demands[first : first + bars]
        end = self._end(at)
        sizes = [
            self._size(each, self.width, measures, end if bar + 1 == bars else 0.0)
            for bar, each in enumerate(needed)
        ]
        small = [bar for bar, size in enumerate(sizes) if size < least]
        if not small:
            return (self.width,) * bars
        if len(small) > 1 or bars == 1:
            return None
        wide = self.width * min(WIDER, 1.02 * least / max(sizes[small[0]], 1.0) + 0.03)
        rest = (bars * self.width - wide) / (bars - 1)
        widths = tuple(wide if bar == small[0] else rest for bar in range(bars))
        fits = all(
            self._size(each, width, measures, end if bar + 1 == bars else 0.0) >= least
            for bar, (each, width) in enumerate(zip(needed, widths, strict=True))
        )
        return widths if fits else None

    def _end(self, at: int) -> float:
        """What a sign at the end of row `at` takes of its last bar."""
        row = self.rows[at]
        repeats = self.chorus.ending == "repeat" and row.bars[-1] is self.last
        return REPEAT_ROOM if repeats else 0.0

    def _size(
        self, needed: Sequence[Demand], width: float, measures: Measures, end: float = 0.0
    ) -> float:
        return hole_size(needed, (width - INSET - end) / self.length, measures)

    @cached_property
    def length(self) -> float:
        """Quarters of a bar."""
        return float(next(bar.length for row in self.rows for bar in row.bars))

    @cached_property
    def last(self) -> Bar | None:
        """Its last bar."""
        bars = [bar for line in self.chorus.lines for bar in line]
        return bars[-1] if bars else None

    def fits(self, measures: Measures, least: float) -> bool:
        """Whether all its figures can have `least` pt."""
        if any(self.widths(at, measures, least) is None for at in range(len(self.rows))):
            return False
        pickup = self.chorus.pickup
        if pickup is None:
            return True
        return self._size(demands(pickup, self.look), self.width, measures) >= least

    def size(self, measures: Measures, least: float) -> float:
        """The common size (pt) of its single figures, at most that of the measures."""
        found = [measures.hole]
        for at, row in enumerate(self.rows):
            widths = self.widths(at, measures, least) or (self.width,) * len(row.bars)
            first, last = self._first_bars[at], len(row.bars) - 1
            found += (
                self._size(
                    self.demands[first + bar], width, measures, self._end(at) if bar == last else 0
                )
                for bar, width in enumerate(widths)
            )
        return min(found)


def systems(
    division: Division,
    measures: Measures,
    least: float,
    before: HoleMark | None,
    *,
    tight: bool = False,
    side_words: bool = True,
) -> list[System]:
    """The lines of a chorus with these measures, figures of one size.

    `before`: the tab that may be held into it.
    """
    measures = replace(measures, hole=min(measures.hole, division.size(measures, least)))
    chorus = division.chorus
    bars = [bar for row in division.rows for bar in row.bars]
    measures = replace(measures, pad=_pad(division, measures))
    chord_at, circle_at = head_places(bars, division.width, measures)
    made = []
    entering = before
    for number, row in enumerate(division.rows):
        widths = division.widths(number, measures, min(least, measures.hole)) or (
            (division.width,) * len(row.bars)
        )
        plans: list[BarPlan] = []
        xs: list[float] = []
        x = division.indent + row.column * division.width
        if row.instead:
            entering = _entering(chorus, row, before)
        pickup = chorus.pickup if number == 0 else None
        if pickup is not None:
            unit = (division.width - INSET) / float(pickup.length)
            first = next((m.onset for m in pickup.marks if not m.is_rest), pickup.length)
            start = first // pickup.beat * pickup.beat
            scale = part_scale(unit, start, pickup.length)
            if chorus.opens_repeat:
                scale = replace(scale, width=scale.width + BEFORE_REPEAT)
            plans.append(
                BarPlan(
                    pickup, scale, measures, division.look,
                    side_words=side_words, first=True, closes="none" if chorus.opens_repeat else "",
                    head=HeadRow(pickup, 0.0, 0.0, False),
                )
            )  # fmt: skip
            xs.append(0.0)
        for at, (bar, width) in enumerate(zip(row.bars, widths, strict=True)):
            closes = _closes(division, row, at)
            opens = chorus.opens_repeat and number == 0 and at == 0
            scale = bar_scale(width, bar.length, REPEAT_ROOM if closes == "repeat" else 0.0)
            head = HeadRow(bar, chord_at, circle_at, bar.first_time)
            if measures.box >= MID.box and not title_fits(head, scale, measures):
                head = replace(head, title_below=True)
            plans.append(
                BarPlan(
                    bar, scale, measures, division.look, entering,
                    first=at == 0 and not plans, last=at + 1 == len(row.bars),
                    closes=closes, opens_repeat=opens,
                    head=head,
                    side_words=side_words and number == 0 and not plans,
                    bracket=_bracket(row, at),
                )
            )  # fmt: skip
            entering = last_tab([bar], entering)
            xs.append(x)
            x += width
        size = syllable_size(plans, measures)
        plans = [replace(plan, syllable_size=size) for plan in plans]
        made.append(System(row, tuple(plans), tuple(xs), lanes_of(plans, measures, tight=tight)))
    return made


def _pad(division: Division, measures: Measures) -> float:
    """From a box's left edge to its figure: as in the shortest box, whose figure is centred."""
    lengths = [each.quarters for needed in division.demands for each in needed]
    unit = (division.width - INSET) / division.length
    box = min(lengths, default=1.0) * unit - measures.white
    return max(LEAST_PAD, min(MOST_PAD, (box - ONE_FIGURE * measures.hole * MM_PER_PT) / 2))


def _entering(chorus: Chorus, row: Row, before: HoleMark | None) -> HoleMark | None:
    """The tab that may be held into bars that replace others: that of the bar before them."""
    bars = [bar for line in chorus.lines for bar in line]
    return last_tab([bar for bar in bars if bar.number < row.bars[0].number], before)


def _bracket(row: Row, at: int) -> Bracket | None:
    if row.bracket is None:
        return None
    words, first, last = row.bracket
    if not first <= at <= last:
        return None
    begins, ends = at == first and not row.bracket_comes_on, at == last and not row.bracket_goes_on
    return Bracket(words if begins else "", begins, ends)


def _closes(division: Division, row: Row, at: int) -> str:
    """The bar line at the right of a bar: see `draw_closing`."""
    if at + 1 < len(row.bars):
        return ""
    if row.instead:
        for each in division.changed:
            last = [bar for line in each.lines for bar in line][-1]
            if last is row.bars[at]:
                return each.ending
        return "line"
    return division.chorus.ending if row.bars[at] is division.last else "line"
