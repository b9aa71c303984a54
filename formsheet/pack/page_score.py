"""The bars of the play-along page: the print's own drawings, to be laid in lines of any width.

Chords and licks are not part of the drawings here: the page sets them over each bar, so that
they stay legible on a phone and follow the harp that the student chooses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.music.grouping import triplets
from formsheet.pack.draw.canvas import Canvas, number
from formsheet.pack.draw.form import plan_chorus
from formsheet.pack.draw.holes import Look
from formsheet.pack.draw.lines import draw_line, last_tab
from formsheet.pack.draw.rows import TRIPLET_ROW, BarPlan, Rows, plan_rows, word_rows
from formsheet.pack.draw.svg import marks as svg_marks
from formsheet.pack.mark_styles import MarkStyle
from formsheet.pack.view import Bar, Chorus, HoleMark

ROOM = 244.0  # mm for four bars: each a little narrower than in print, for larger numbers
OVER = 1.4  # mm over the tab of a bar that stands alone
#: The names of a bar's measures in the style sheet.
MEASURES = ("share", "widths", "spare", "deep", "pair-spare", "pair-deep")


@dataclass(frozen=True, slots=True)
class Close:
    """How close a bar may be set where it does not share its line with three others."""

    spare: float  # over its tab
    foot: float  # how far down its tab and the room over its stems reach

    def beside(self, other: Close) -> Close:
        """As close as both bars allow."""
        return Close(min(self.spare, other.spare), max(self.foot, other.foot))


@dataclass(frozen=True, slots=True)
class Cell:
    """A bar of the page. Its heights are shares of its width."""

    bar: Bar
    drawing: str  # what stands in its SVG
    tab_box: str  # of the SVG: the breath line with all that goes with it
    rhythm_box: str  # and the rhythm and count below it
    share: float  # its width, of a line of four
    widths: float  # its width, in widths of its chorus's common bar
    alone: Close
    paired: Close  # as the bar beside it needs it, where two share a line
    over_stems: float  # what of that room belongs to the drawing of the rhythm
    xs: tuple[float, ...]  # of each of its marks, as a share of its width
    start: float  # where its first beat stands, as a share of its width
    lick_ends: bool  # the next bar is not of this lick

    @property
    def measures(self) -> tuple[float, ...]:
        """What the style sheet must know of it, in the order of MEASURES."""
        alone, paired = (
            (close.spare, close.foot - close.spare - self.over_stems)
            for close in (self.alone, self.paired)
        )
        return (self.share, self.widths, *alone, *paired)


@dataclass(frozen=True, slots=True)
class CellLine:
    """Bars that stand side by side where there is room; `indent` as a share of the line."""

    cells: tuple[Cell, ...]
    indent: float


@dataclass(frozen=True, slots=True)
class PageChorus:
    """A chorus as lines of bars."""

    title: str
    note: str
    lines: tuple[CellLine, ...]
    stands_for: tuple[tuple[int, ...], ...]  # of each of its bars: indices in the tune

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Its bars, a pick-up bar first."""
        return tuple(cell for line in self.lines for cell in line.cells)


def page_choruses(choruses: Sequence[Chorus], marks: MarkStyle) -> tuple[PageChorus, ...]:
    """All choruses, drawn one after another, with breath shown by these marks."""
    drawn = []
    before: HoleMark | None = None
    for chorus in choruses:
        lines = tuple(_lines(chorus, Look(marks), before))
        stands_for = ((0,), *chorus.stands_for) if chorus.pickup else chorus.stands_for
        drawn.append(PageChorus(chorus.title, chorus.note, lines, stands_for))
        before = last_tab([bar for line in chorus.lines for bar in line], before)
    return tuple(drawn)


def _lines(chorus: Chorus, look: Look, before: HoleMark | None) -> Iterator[CellLine]:
    planned = plan_chorus(chorus, ROOM, look)
    common = min((part.width for part in planned.parts), default=ROOM)
    for part in planned.parts:
        plans = part.planned(part.size, look)
        rows = plan_rows(plans, heading=False)
        line = draw_line(plans, rows, before=before, heading=False)
        before = last_tab([plan.bar for plan in plans], before)
        cells = [
            _cell(plan, rows, image.drawing, common)
            for plan, image in zip(plans, line.images, strict=True)
        ]
        lead = 1 if part.pickup else 0
        paired = (*cells[:lead], *_paired(cells[lead:]))
        yield CellLine(paired, 0.0 if part.pickup else planned.gutter / ROOM)


def _paired(cells: Sequence[Cell]) -> list[Cell]:
    """Bars that stand two and two; a wide one stands alone, and so does one that is left over."""
    pairs = [cells[i : i + 2] for i in range(0, len(cells), 2)]
    return [
        replace(cell, paired=pair[0].alone.beside(pair[-1].alone))
        if max(each.widths for each in pair) <= 1
        else cell
        for pair in pairs
        for cell in pair
    ]


def _cell(plan: BarPlan, rows: Rows, drawing: Canvas, common: float) -> Cell:
    scale, words = plan.scale, word_rows(plan)
    over_stems = TRIPLET_ROW if triplets(plan.bar.marks) else 0.0
    split = rows.stem_top - over_stems
    spare = max(0.0, rows.breath - words.top - OVER)
    alone = Close(spare / scale.width, (rows.breath + words.foot) / scale.width)

    def share(onset: Fraction) -> float:
        return scale.x(max(onset, scale.start)) / scale.width

    return Cell(
        bar=plan.bar,
        drawing=svg_marks(drawing),
        tab_box=_box(scale.width, 0.0, split),
        rhythm_box=_box(scale.width, split, rows.height),
        share=scale.width / ROOM,
        widths=scale.width / common,
        alone=alone,
        paired=alone,
        over_stems=over_stems / scale.width,
        xs=tuple(share(mark.onset) for mark in plan.bar.marks),
        start=share(scale.start),
        lick_ends=plan.lick_ends,
    )


def _box(width: float, top: float, foot: float) -> str:
    return f"0 {number(top)} {number(width)} {number(foot - top)}"
