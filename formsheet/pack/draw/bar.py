"""One bar, drawn from its plan and the rows of its line."""

from __future__ import annotations

from formsheet.pack.draw import glyphs
from formsheet.pack.draw.again import draw_again
from formsheet.pack.draw.breath import draw_path, draw_tab
from formsheet.pack.draw.canvas import Canvas
from formsheet.pack.draw.counting import draw_counts
from formsheet.pack.draw.heading import draw_bar_number, draw_chords, draw_lick
from formsheet.pack.draw.metrics import width
from formsheet.pack.draw.rhythm import draw_rhythm
from formsheet.pack.draw.rows import (
    DEGREE,
    DEGREE_ROW,
    FEEL,
    FEEL_ROW,
    OPENING,
    SYLLABLE,
    TECHNIQUE,
    WORD_ROW,
    BarPlan,
    Rows,
    word_rows,
)
from formsheet.pack.view import HoleMark

THIN = 0.25  # bar line, mm
BESIDE = 3.5  # from the chord to a lick that stands beside it
THICK = 0.9  # the heavy stroke at the end of a tune, or of a repeat
BETWEEN = 0.6  # from it to the thin one
CLOSER = 0.45  # the same, where a repeat opens: numbers stand near
DOTS = 0.8  # from the thin one to the middle of a repeat's dots
APART = 1.1  # of each dot from the middle


def draw_bar(
    plan: BarPlan, rows: Rows, *, before: HoleMark | None = None, heading: bool = True
) -> Canvas:
    """A bar; `before` is the tab that may sound on into it."""
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
    """A change of feel: its word in a frame with a foot that points at its moment."""
    for word in plan.feels:
        y = base + word.row * FEEL_ROW
        left, right = word.x - 0.7, word.x + width(word.text, FEEL) + 0.7
        top, foot = y - 3.2, y + 1.0
        canvas.line(0.2, (left, foot + 1.0), (left, top), (right, top), (right, foot), (left, foot))
        canvas.text(word.x, y, word.text, FEEL)


def _draw_bar_lines(canvas: Canvas, plan: BarPlan, rows: Rows) -> None:
    top, high = rows.chord - 3.4 if rows.chord else 0.0, rows.height
    high -= top
    right = plan.scale.width
    if plan.opens_repeat:
        canvas.rectangle(0, top, OPENING - THIN - CLOSER, high)
        canvas.rectangle(OPENING - THIN, top, THIN, high)
        _draw_dots(canvas, OPENING + DOTS, rows)
    else:
        canvas.rectangle(0, top, THIN, high)
    if not plan.closes:
        return
    thick = THICK if plan.closes in ("final", "repeat") else THIN
    canvas.rectangle(right - thick, top, thick, high)
    if plan.closes != "line":
        canvas.rectangle(right - thick - BETWEEN - THIN, top, THIN, high)
    if plan.closes == "repeat":
        _draw_dots(canvas, right - thick - BETWEEN - THIN - DOTS, rows)


def _draw_dots(canvas: Canvas, x: float, rows: Rows) -> None:
    """The two dots of a repeat, beside the stems, where no number stands."""
    middle = (rows.stem_top + rows.head) / 2
    for y in (middle - APART, middle + APART):
        canvas.fill(glyphs.ball(x, y))
