"""The bars of the play-along page: the drawings of the print, in lines of any width.

Chords and licks are not part of these drawings: the page writes them above each bar, so that they
are legible on a phone and change with the harp that the student chooses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.music.grouping import triplets
from formsheet.sheet.draw.canvas import Canvas, number
from formsheet.sheet.draw.form import plan_chorus
from formsheet.sheet.draw.holes import Look
from formsheet.sheet.draw.lines import draw_line, last_tab
from formsheet.sheet.draw.rows import TRIPLET_ROW, BarPlan, Rows, plan_rows, word_rows
from formsheet.sheet.draw.svg import marks as svg_marks
from formsheet.sheet.mark_styles import MarkStyle
from formsheet.sheet.view import Bar, Chorus, HoleMark

ROOM = 244.0  # mm for four bars: slightly narrower than in print, for larger numbers
OVER = 1.4  # mm above the tab of a bar alone on its line
#: Names of the measures of a bar in the style sheet.
MEASURES = ("share", "widths", "spare", "deep", "pair-spare", "pair-deep")


@dataclass(frozen=True, slots=True)
class Close:
    """Vertical measures of a bar on a line with fewer than four bars."""

    spare: float  # space above its tab
    foot: float  # lower end of its tab and of the space above its stems

    def beside(self, other: Close) -> Close:
        """The measures with which both bars fit."""
        return Close(min(self.spare, other.spare), max(self.foot, other.foot))


@dataclass(frozen=True, slots=True)
class Cell:
    """A bar of the page. Its heights are shares of its width."""

    bar: Bar
    drawing: str  # content of its SVG
    tab_box: str  # view box of the breath line with numbers and words
    rhythm_box: str  # view box of rhythm and count
    share: float  # its width, as a share of a line of four
    widths: float  # its width, in widths of the common bar of its chorus
    alone: Close
    paired: Close  # the same if two bars share a line
    over_stems: float  # the part of the space above the stems in the drawing of the rhythm
    xs: tuple[float, ...]  # place of each of its marks, as a share of its width
    start: float  # place of its first beat, as a share of its width
    lick_ends: bool  # the next bar has another lick

    @property
    def measures(self) -> tuple[float, ...]:
        """Its measures for the style sheet, in the order of MEASURES."""
        alone, paired = (
            (close.spare, close.foot - close.spare - self.over_stems)
            for close in (self.alone, self.paired)
        )
        return (self.share, self.widths, *alone, *paired)


@dataclass(frozen=True, slots=True)
class CellLine:
    """Bars side by side if there is room; `indent` as a share of the line."""

    cells: tuple[Cell, ...]
    indent: float


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


def page_choruses(choruses: Sequence[Chorus], marks: MarkStyle) -> tuple[PageChorus, ...]:
    """All choruses, drawn in order; `marks`: how breath is shown."""
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
    """Bars in pairs; a wide bar is alone, and so is one without a partner."""
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
