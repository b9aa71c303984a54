"""One bar, drawn from its plan and the rows of its line."""

from __future__ import annotations

from formsheet.sheet.draw.again import draw_again
from formsheet.sheet.draw.bar_lines import draw_closing, draw_opening
from formsheet.sheet.draw.breath import draw_path, draw_tab
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.counting import draw_counts
from formsheet.sheet.draw.heading import draw_bar_number, draw_chords, draw_lick
from formsheet.sheet.draw.metrics import width
from formsheet.sheet.draw.rhythm import draw_rhythm
from formsheet.sheet.draw.rows import (
    DEGREE,
    DEGREE_ROW,
    FEEL,
    FEEL_ROW,
    SYLLABLE,
    TECHNIQUE,
    WORD_ROW,
    BarPlan,
    Rows,
    word_rows,
)
from formsheet.sheet.view import HoleMark

BESIDE = 3.5  # mm from the chord to a lick beside it


def draw_bar(
    plan: BarPlan, rows: Rows, *, before: HoleMark | None = None, heading: bool = True
) -> Canvas:
    """Draw a bar; `before` is the tab that may be held into it."""
    bar, scale = plan.bar, plan.scale
    canvas = Canvas(scale.width, rows.height)
    marks = tuple(mark for mark in bar.marks if mark.onset >= scale.start)
    if heading:
        draw_bar_number(canvas, plan, rows.chord)
        end = draw_chords(canvas, plan, rows.chord)
        draw_lick(canvas, plan, rows.lick, None if rows.lick > rows.chord else end + BESIDE)
    if bar.again:
        draw_again(canvas, plan, rows)
        _draw_bar_lines(canvas, plan, rows)
        return canvas
    words = word_rows(plan)
    for word in plan.techniques:
        y = rows.breath + words.technique - word.row * WORD_ROW
        canvas.text(word.x, y, word.text, TECHNIQUE)
    for word in plan.low_techniques:
        y = rows.breath + words.low_technique + word.row * WORD_ROW
        canvas.text(word.x, y, word.text, TECHNIQUE)
    draw_path(
        canvas,
        scale,
        rows.breath,
        marks,
        before=before,
        runs_in=bool(marks) and marks[0].hold,
        runs_on=bool(marks) and marks[-1].tied_on,
        length=bar.length,
        edge=plan.edge,
        style=plan.style,
    )
    draw_tab(canvas, scale, rows.breath, marks, plan.style, before=before, dropped=plan.dropped)
    for word in plan.degree_words:
        canvas.text(word.x, rows.breath + words.degree + word.row * DEGREE_ROW, word.text, DEGREE)
    for word in plan.syllables:
        y = rows.breath + words.syllable + word.row * WORD_ROW
        canvas.text(word.x, y, word.text, SYLLABLE)
    _draw_feels(canvas, plan, rows.breath + words.feel)
    draw_rhythm(canvas, scale, rows, marks, bar.beat)
    draw_counts(canvas, scale, rows.count, bar.counts)
    _draw_bar_lines(canvas, plan, rows)
    return canvas


def _draw_feels(canvas: Canvas, plan: BarPlan, base: float) -> None:
    """Draw changes of feel: the word in a frame with a foot that points at its moment."""
    for word in plan.feels:
        y = base + word.row * FEEL_ROW
        left, right = word.x - 0.7, word.x + width(word.text, FEEL) + 0.7
        top, foot = y - 3.2, y + 1.0
        canvas.line(0.2, (left, foot + 1.0), (left, top), (right, top), (right, foot), (left, foot))
        canvas.text(word.x, y, word.text, FEEL)


def _draw_bar_lines(canvas: Canvas, plan: BarPlan, rows: Rows) -> None:
    top = rows.chord - 3.4 if rows.chord else 0.0
    high = rows.height - top
    dots = (rows.stem_top + rows.head) / 2  # beside the stems, clear of the numbers
    draw_opening(canvas, top, high, dots if plan.opens_repeat else None)
    if plan.closes:
        draw_closing(canvas, plan.scale.width, top, high, plan.closes, dots)
