"""The tab row: numbers above the breath line are blown, those below are drawn.

The path of the breath runs along the line: light above it for blow, heavy below it for draw, with
an upright stroke at each turn. So a turn of the breath is a step across the line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.holes import NumberStyle, draw_number
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.view import HoleMark, Mark

LINE = 0.16  # weight of the breath line, mm
PLAIN_LINE = 0.3  # the same without a path
BLOW = 0.42  # weight of the path while blowing
DRAW = 0.85  # the same while drawing
STEP = 0.68  # from the breath line to the middle of the path
HOLD = 0.3
CLEAR = 0.5  # mm from an upright stroke to its number
EARLY = 0.9  # mm from the end of the path to a bar line


@dataclass(frozen=True, slots=True)
class Breath:
    """A breath in one direction, from one moment of the bar to another."""

    start: Fraction
    end: Fraction
    draw: bool


def breaths(marks: Sequence[Mark], before: HoleMark | None) -> list[Breath]:
    """The breaths of a bar; `before` is the last tab before it, for a hold over the bar line."""
    found: list[Breath] = []
    last = before
    for mark in marks:
        tab = mark.tab or (last if mark.hold else None)
        if tab is None:
            last = None
            continue
        last = tab
        end = mark.onset + mark.length
        if found and found[-1].end == mark.onset and found[-1].draw == tab.draw:
            found[-1] = Breath(found[-1].start, end, tab.draw)
        else:
            found.append(Breath(mark.onset, end, tab.draw))
    return found


def _level(breath: float, draw: bool) -> float:
    return breath + STEP if draw else breath - STEP


def _turn(marks: Sequence[Mark], onset: Fraction, scale: Scale, lead: float) -> float:
    """Distance (mm) from the turn of the breath to the onset after it."""
    last = max(mark.onset for mark in marks if mark.onset < onset)
    return min(lead + CLEAR, float(onset - last) * scale.unit / 2)


def draw_path(
    canvas: Canvas,
    scale: Scale,
    y: float,
    marks: Sequence[Mark],
    *,
    before: HoleMark | None,
    runs_in: bool,
    runs_on: bool,
    length: Fraction,
    edge: float,
    style: NumberStyle,
) -> None:
    """Draw the breath line and the path; `runs_in`, `runs_on`: it crosses the bar lines.

    `length` is that of the bar, `edge` (mm) the end of its room.
    """
    plain = not style.marks.path
    canvas.line(PLAIN_LINE if plain else LINE, (0, y), (edge, y))
    if plain:  # each number has its own mark
        return
    found = breaths(marks, before)
    lead = style.half_figure
    for i, one in enumerate(found):
        turned = i > 0 and found[i - 1].end == one.start
        turns = i + 1 < len(found) and found[i + 1].start == one.end
        start = scale.x(one.start) - (_turn(marks, one.start, scale, lead) if turned else lead)
        end = scale.x(one.end) - (_turn(marks, one.end, scale, lead) if turns else lead + 2 * CLEAR)
        if one.start == scale.start and runs_in and i == 0:
            start = 0.0
        if one.end == length and runs_on:
            end = edge
        end = min(end, edge if runs_on else edge - EARLY)
        level = _level(y, one.draw)
        weight = DRAW if one.draw else BLOW
        canvas.line(weight, (start, level), (end, level))
        if turned:
            canvas.line(BLOW, (start, y - STEP - BLOW / 2), (start, y + STEP + DRAW / 2))


def draw_tab(
    canvas: Canvas,
    scale: Scale,
    y: float,
    marks: Sequence[Mark],
    style: NumberStyle,
    *,
    before: HoleMark | None,
    dropped: float,
) -> None:
    """Draw hole numbers and the lines of holds; `dropped` (mm) as in `draw_number`."""
    middle, end = _entering_middle(y, before, style, dropped), 0.5
    for i, mark in enumerate(marks):
        x = scale.x(mark.onset)
        if mark.is_rest:
            continue
        if not mark.hold:
            middle, end = draw_number(canvas, x, y, mark, style, dropped)
            end += 0.8
            continue
        over = mark.tied_on and i + 1 == len(marks)
        stop = scale.x(mark.onset + mark.length) - 2.4
        stop = scale.width if over else min(stop, scale.width - 1.2)
        canvas.line(HOLD, (end, middle), (stop, middle))
        end = stop
    if marks and marks[-1].tied_on and not marks[-1].hold:
        canvas.line(HOLD, (end, middle), (scale.width, middle))


def _entering_middle(
    y: float, before: HoleMark | None, style: NumberStyle, dropped: float
) -> float:
    """The height at which the line of a hold crosses the bar line on the left."""
    if before is None:
        return y
    plain = Mark(Fraction(0), Fraction(1), "q", tab=before)
    return draw_number(Canvas(0, 0), 0.0, y, plain, style, dropped)[0]
