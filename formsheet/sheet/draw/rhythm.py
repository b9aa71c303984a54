"""The rhythm row: heads, stems, flags, beams, rests, dots, ties and triplet brackets."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from formsheet.music.grouping import beams, second_beams, triplets
from formsheet.sheet.draw import glyphs
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.rows import Rows
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.view import Mark

BEAM = 1.0  # mm
BEAM_STEP = 1.65  # from beam to beam
STUB = 1.9
WHITE = 0.7  # least mm between two heads
LEAST_HEAD = 0.66  # of a head's full size
CLOSE = 5.5  # mm: if the next mark is nearer, flags are narrow
TRIPLET = Font("italic", 9.5)


def draw_rhythm(
    canvas: Canvas, scale: Scale, rows: Rows, marks: Sequence[Mark], beat: Fraction
) -> None:
    """Draw the rhythm of a bar."""
    groups = beams(marks, beat)
    beamed = {i for group in groups for i in group}
    for i, mark in enumerate(marks):
        x = scale.x(mark.onset)
        if mark.is_rest:
            _rest(canvas, x, rows, mark)
            continue
        canvas.fill(glyphs.head(mark.value, x, rows.head, head_scale(mark, scale)))
        canvas.fill(glyphs.dots(mark.dots, x + 2.3, rows.head - 0.3))
        if mark.value != "w":
            canvas.rectangle(
                x + stem_x(mark, scale) - glyphs.STEM / 2,
                rows.stem_top,
                glyphs.STEM,
                rows.head - rows.stem_top - 0.3,
            )
        if mark.value in "es" and i not in beamed:
            count = 1 if mark.value == "e" else 2
            narrow = float(mark.length) * scale.unit < CLOSE
            left = x + stem_x(mark, scale) - glyphs.STEM / 2
            canvas.fill(glyphs.flags(count, left, rows.stem_top, narrow=narrow))
    for group in groups:
        _beam(canvas, scale, rows, marks, group)
    for first, last in triplets(marks):
        _bracket(canvas, scale, rows, marks[first], marks[last])
    _ties(canvas, scale, rows, marks)


def head_scale(mark: Mark, scale: Scale) -> float:
    """The scale of a head: smaller if the next one would touch it."""
    apart = float(mark.length) * scale.unit
    return max(LEAST_HEAD, min(1.0, (apart - WHITE) / (2 * glyphs.HEAD)))


def stem_x(mark: Mark, scale: Scale) -> float:
    """The distance (mm) of a mark's stem to the right of its onset."""
    return glyphs.STEM_X * head_scale(mark, scale)


def _rest(canvas: Canvas, x: float, rows: Rows, mark: Mark) -> None:
    y = rows.head - 2.6
    canvas.fill(glyphs.rest(mark.value, x, y))
    canvas.fill(glyphs.dots(mark.dots, x + 2.4, y - 0.6))


def _beam(
    canvas: Canvas, scale: Scale, rows: Rows, marks: Sequence[Mark], group: Sequence[int]
) -> None:
    def stem(i: int) -> float:
        return scale.x(marks[i].onset) + stem_x(marks[i], scale)

    def stroke(x1: float, x2: float, level: int) -> None:
        canvas.rectangle(x1, rows.stem_top + level * BEAM_STEP, x2 - x1, BEAM)

    half = glyphs.STEM / 2
    stroke(stem(group[0]) - half, stem(group[-1]) + half, 0)
    for first, last in second_beams(group, marks):
        if first != last:
            stroke(stem(first) - half, stem(last) + half, 1)
        elif first == group[0]:
            stroke(stem(first) - half, stem(first) + STUB, 1)
        else:
            stroke(stem(first) - STUB, stem(first) + half, 1)


def _bracket(canvas: Canvas, scale: Scale, rows: Rows, first: Mark, last: Mark) -> None:
    left = scale.x(first.onset) - 0.9
    right = scale.x(last.onset) + stem_x(last, scale) + 0.6
    y = rows.stem_top - 1.5
    middle = (left + right) / 2
    canvas.text(middle, y + TRIPLET.figure_height / 2, "3", TRIPLET, "middle")
    canvas.line(0.22, (left, y + 0.9), (left, y), (middle - 1.4, y))
    canvas.line(0.22, (middle + 1.4, y), (right, y), (right, y + 0.9))


def _ties(canvas: Canvas, scale: Scale, rows: Rows, marks: Sequence[Mark]) -> None:
    y = rows.head + 1.35
    if marks and marks[0].hold:
        canvas.fill(glyphs.half_tie(scale.x(marks[0].onset) - 0.3, 0.0, y))
    for one, other in pairwise(marks):
        if other.hold:
            canvas.fill(glyphs.tie(scale.x(one.onset) + 0.3, scale.x(other.onset) - 0.3, y))
    if marks and marks[-1].tied_on:
        canvas.fill(glyphs.half_tie(scale.x(marks[-1].onset) + 0.3, scale.width, y))
