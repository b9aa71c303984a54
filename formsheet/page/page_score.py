"""The bars of the play-along page: the comb of the print, in lines of any width.

Chords and licks are not part of these drawings: the page writes them above each bar, so that they
are legible on a phone and change with the harp that the student chooses. The page's script shows
as much of a drawing as its line needs: less where a bar is alone, two halves one below the other
where the window is too narrow for its figures.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import takewhile
from math import ceil

from formsheet.sheet.draw.bar import BarPlan, Lanes, draw_bar, lanes_of, syllable_size
from formsheet.sheet.draw.canvas import number
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import DENSE, WIDE, Measures, between
from formsheet.sheet.draw.metrics import FIGURE_HEIGHT, MM_PER_PT
from formsheet.sheet.draw.note_box import figure_em, figure_size
from formsheet.sheet.draw.scale import bar_scale, part_scale
from formsheet.sheet.draw.signs import WIDTHS
from formsheet.sheet.draw.svg import marks as svg_marks
from formsheet.sheet.draw.systems import (
    ACROSS,
    demands,
    hole_size,
    last_tab,
    pickup_share,
)
from formsheet.sheet.view import Bar, ChordMark, Chorus, HoleMark

WIDTH = 68.0  # mm: a bar
LEAST_FIGURE = 15.0  # CSS px: the least height of a hole's figure; own choice, for arm's length
LEAST_SIZE = 15.0  # pt: the common size of figures is not less for the sake of a few dense bars
BELOW = 0.2  # mm under the lowest ink
#: How many bars may stand side by side.
SIDES = (4, 2, 1)


@dataclass(frozen=True, slots=True)
class Window:
    """The part of a drawing that is seen, in millimetres from its top."""

    top: float
    height: float

    def beside(self, other: Window) -> Window:
        """A window in which both are whole."""
        top = min(self.top, other.top)
        return Window(top, max(self.top + self.height, other.top + other.height) - top)


@dataclass(frozen=True, slots=True)
class Cell:
    """A bar of the page. Lengths are millimetres of its drawing."""

    bar: Bar
    column: int  # in its line, from 0; -1 for a pick-up
    width: float
    #: Contents of its SVG, each with the numbers of bars side by side for which it is drawn: ends
    #: of a line tear the boxes that are held over them.
    drawings: tuple[tuple[tuple[int, ...], str], ...]
    edge: tuple[float, float]  # top and foot of its bar lines
    windows: dict[int, Window]  # by the number of bars side by side
    least: float  # CSS px: its width at which its smallest figure has the least height
    fold: float  # where it may be broken in two; 0 if nowhere
    xs: tuple[float, ...]  # place of each of its marks, as a share of its width
    start: float  # place of its first beat, as a share of its width
    slots: tuple[tuple[ChordMark, float], ...]  # each chord, and the width up to the next; last 0
    #: Over bars that another time replaces: "1st and 2nd time" at the first, " " at the others.
    times: str

    @property
    def box(self) -> str:
        """The view box of the whole drawing."""
        window = self.windows[ACROSS]
        return f"0 {number(window.top)} {number(self.width)} {number(window.height)}"


@dataclass(frozen=True, slots=True)
class CellLine:
    """Bars side by side if there is room."""

    cells: tuple[Cell, ...]
    indent: float  # mm: under a pick-up, and before bars that stand under those they replace
    room: float  # mm: the width of a line of four bars, with the indent


@dataclass(frozen=True, slots=True)
class PageChorus:
    """A chorus as lines of bars."""

    title: str
    note: str
    lines: tuple[CellLine, ...]
    stands_for: tuple[tuple[int, ...], ...]  # for each bar, indices of the bars of the tune

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Its bars, including a pick-up bar."""
        return tuple(cell for line in self.lines for cell in line.cells)


def page_choruses(choruses: Sequence[Chorus], look: Look) -> tuple[PageChorus, ...]:
    """All choruses, drawn in order."""
    measures = _measures(choruses, look)
    drawn = []
    before: HoleMark | None = None
    whole: Chorus | None = None  # of which the changed bars replace some
    for at, chorus in enumerate(choruses):
        if chorus.places:
            assert whole
            bars = [bar for line in whole.lines for bar in line]
            before = last_tab(bars[: chorus.places[0]], None)
            lines = tuple(_changed(chorus, whole, look, measures, before))
        else:
            whole = chorus
            lines = tuple(_lines(chorus, _replaced(choruses[at + 1 :]), look, measures, before))
        stands_for = ((0,), *chorus.stands_for) if chorus.pickup else chorus.stands_for
        drawn.append(PageChorus(chorus.title, chorus.note, lines, stands_for))
        before = last_tab([bar for line in chorus.lines for bar in line], before)
    return tuple(drawn)


def _replaced(later: Sequence[Chorus]) -> frozenset[int]:
    """Which bars of a chorus those that follow it replace."""
    changed = takewhile(lambda each: each.places, later)
    return frozenset(place for each in changed for place in each.places)


def _measures(choruses: Sequence[Chorus], look: Look) -> Measures:
    """The measures of all bars: their figures have one size as far as possible."""
    bars = [bar for chorus in choruses for line in chorus.lines for bar in line]
    size = min((_size(bar, WIDE, look) for bar in bars), default=WIDE.hole)
    size = max(LEAST_SIZE, min(size, WIDE.hole))
    share = max(0.0, min(1.0, (size - DENSE.hole) / (WIDE.hole - DENSE.hole)))
    return replace(between(DENSE, WIDE, share), hole=size)


def _size(bar: Bar, measures: Measures, look: Look) -> float:
    scale = bar_scale(WIDTH, bar.length)
    return hole_size(demands(bar, look), scale.unit, measures)


# ---- Lines ---------------------------------------------------------------------------------


def _lines(
    chorus: Chorus,
    replaced: frozenset[int],
    look: Look,
    measures: Measures,
    before: HoleMark | None,
) -> Iterator[CellLine]:
    lead = _lead(chorus, look, measures)
    indent = lead.scale.width if lead else 0.0
    last = [bar for line in chorus.lines for bar in line][-1:]
    done = 0
    for line in _rows(chorus):
        plans = [lead] if lead and not done else []
        for bar in line:
            closes = chorus.ending if [bar] == last and bar is last[0] else ""
            opens = chorus.opens_repeat and bar is chorus.lines[0][0]
            scale = bar_scale(WIDTH, bar.length)
            plans.append(
                BarPlan(bar, scale, measures, look, before, closes=closes, opens_repeat=opens)
            )
            before = last_tab([bar], before)
        syllables = syllable_size(plans, measures)
        plans = [replace(plan, syllable_size=syllables) for plan in plans]
        lanes = lanes_of(plans, measures)
        lead_count = 1 if lead and not done else 0
        cells = [
            _cell(plan, lanes, at - lead_count, len(line), measures)
            for at, plan in enumerate(plans)
        ]
        covered = [at + lead_count for at in range(len(line)) if done + at in replaced]
        for at in covered:
            first = at == covered[0]
            cells[at] = replace(cells[at], times=chorus.times if first and chorus.times else " ")
        yield CellLine(
            (*cells[:lead_count], *_paired(cells[lead_count:])),
            indent if not lead_count else 0.0,
            indent + ACROSS * WIDTH,
        )
        done += len(line)


def _changed(
    chorus: Chorus, whole: Chorus, look: Look, measures: Measures, before: HoleMark | None
) -> Iterator[CellLine]:
    """The lines of changed bars, under the columns of those they replace."""
    columns = [at for line in _rows(whole) for at in range(len(line))]
    lead = _lead(whole, look, measures)
    under = lead.scale.width if lead else 0.0
    done = 0
    for line in _lines(chorus, frozenset(), look, measures, before):
        column = min(columns[chorus.places[done]], ACROSS - len(line.cells))
        yield replace(line, indent=under + column * WIDTH, room=under + ACROSS * WIDTH)
        done += len(line.cells)


def _lead(chorus: Chorus, look: Look, measures: Measures) -> BarPlan | None:
    """The pick-up before the tune."""
    pickup = chorus.pickup
    if pickup is None:
        return None
    unit = bar_scale(WIDTH, pickup.length).unit
    start = pickup.length * (1 - Fraction(pickup_share(pickup)).limit_denominator(64))
    scale = part_scale(unit, start, pickup.length)
    return BarPlan(pickup, scale, measures, look)


def _rows(chorus: Chorus) -> Iterator[tuple[Bar, ...]]:
    """The lines of the form, a long one in equal parts."""
    for line in chorus.lines:
        parts = ceil(len(line) / ACROSS) or 1
        each = ceil(len(line) / parts)
        for start in range(0, len(line), each):
            yield line[start : start + each]


def _paired(cells: Sequence[Cell]) -> list[Cell]:
    """Bars in pairs, for lines of two: they share one window."""
    made = []
    for at, cell in enumerate(cells):
        other = cells[at ^ 1] if at ^ 1 < len(cells) else cell
        window = cell.windows[1].beside(other.windows[1])
        made.append(replace(cell, windows=cell.windows | {2: window}))
    return made


# ---- Bars ----------------------------------------------------------------------------------


def _cell(plan: BarPlan, lanes: Lanes, at: int, count: int, measures: Measures) -> Cell:
    """A bar with its drawings; `at`: its place in a line of `count`, -1 for a pick-up."""
    whole = Window(0.0, lanes.height + BELOW)
    own = _own_window(plan, lanes, measures)
    wide = plan.scale.width

    def share(onset: Fraction) -> float:
        return plan.scale.x(max(onset, plan.scale.start)) / wide

    starts = [chord.onset for chord in plan.bar.chords]
    ends = [*(share(onset) for onset in starts[1:]), 0.0]
    lefts = [0.0, *ends[:-1]]
    slots = tuple(
        (chord, round(end - left, 4) if end else 0.0)
        for chord, left, end in zip(plan.bar.chords, lefts, ends, strict=True)
    )
    return Cell(
        bar=plan.bar,
        column=at,
        width=wide,
        drawings=tuple(_drawings(plan, lanes, at, count)),
        edge=(lanes.blow, lanes.foot),
        windows={ACROSS: whole, 2: own, 1: own},
        least=_least(plan),
        fold=_fold(plan),
        xs=tuple(share(mark.onset) for mark in plan.bar.marks),
        start=share(plan.scale.start),
        slots=slots if plan.bar.number else (),
        times="",
    )


def _own_window(plan: BarPlan, lanes: Lanes, measures: Measures) -> Window:
    """What is seen of a bar that is alone on its line: an empty lane is lower."""
    own = lanes_of([plan], measures, tight=True)
    top = max(0.0, lanes.comb - own.comb)
    below = own.syllables - own.draw
    foot = lanes.draw + below
    if own.rows:
        foot = lanes.height
    return Window(top, min(lanes.height, foot) + BELOW - top)


def _drawings(
    plan: BarPlan, lanes: Lanes, at: int, count: int
) -> Iterator[tuple[tuple[int, ...], str]]:
    """The different drawings of a bar, each with the numbers side by side that use it."""
    found: dict[str, list[int]] = {}
    for across in SIDES:
        first = at <= 0 or at % across == 0
        last = at >= 0 and (at + 1 == count or (at + 1) % across == 0)
        if across < ACROSS and at < 0:
            last = across == 1
        held_in = bool(plan.notes) and not plan.notes[0].struck
        held_on = bool(plan.notes) and plan.notes[-1].held_on
        ends = replace(plan, first=first and held_in, last=last and held_on)
        found.setdefault(svg_marks(draw_bar(ends, lanes)), []).append(across)
    for drawing, sides in found.items():
        yield tuple(sides), drawing


def _least(plan: BarPlan) -> float:
    """The width (CSS px) at which the smallest figure of a bar has the least height."""
    smallest = min(
        (
            figure_size(note.tab, box.width, plan.measures, plan.look)
            for note, box in zip(plan.notes, plan.boxes, strict=True)
            if note.struck
        ),
        default=plan.measures.hole,
    )
    return ceil(LEAST_FIGURE * plan.scale.width / (smallest * MM_PER_PT * FIGURE_HEIGHT))


def _fold(plan: BarPlan) -> float:
    """Where a bar may be broken in two, nearest its middle: where a note is struck, or at a beat.

    No figure and no sign stands there. A box that is cut shows that its note goes on.
    """
    bar = plan.bar
    taken = []
    for note, box in zip(plan.notes, plan.boxes, strict=True):
        if not note.struck:
            continue
        size = figure_size(note.tab, box.width, plan.measures, plan.look) * MM_PER_PT
        right = plan.middles[note.onset] + size * figure_em(note.tab, plan.look) / 2
        if note.technique:
            right = max(right, box.left + 0.5 + WIDTHS[note.technique] * plan.measures.sign)
        taken.append((box.left, right))
    beats = [bar.beat * i for i in range(1, int(bar.length / bar.beat))]
    struck = [note.onset for note in plan.notes if note.struck and note.onset]
    cuts = {onset: plan.scale.x(onset) - plan.measures.white / 2 for onset in (*struck, *beats)}
    places = {
        onset: x for onset, x in cuts.items() if not any(left < x < right for left, right in taken)
    }
    if not places:
        return 0.0
    middle, half = bar.length / 2, bar.beat / 2
    onset = min(places, key=lambda each: (abs(each - middle) + (each % bar.beat > 0) * half, each))
    return round(places[onset], 2)
