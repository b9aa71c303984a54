"""The two notes of a join, or of a move inside a lick, on a piece of the comb.

Lengths are millimetres.
"""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.comb import LINE
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import BACK
from formsheet.sheet.draw.note_box import Box, box_height, draw_box
from formsheet.sheet.view import HoleMark

WIDTH = 24.0
BOX = 7.4
ARROW = 2.2  # half its length
EMPTY = 1.6  # height of a lane in which nothing is played


def move_sign(last: HoleMark, first: HoleMark, look: Look) -> Canvas:
    """Two boxes, and an arrow from the first of them to the second."""
    lane, foot = (
        max(
            (box_height(tab, BACK, look) for tab in (last, first) if tab.draw == side),
            default=EMPTY,
        )
        for side in (False, True)
    )
    draw = lane + BACK.comb
    canvas = Canvas(WIDTH, draw + foot)
    for y in (lane, draw):
        canvas.line(LINE, (0.0, y), (WIDTH, y))
    for x, tab in ((2.6, last), (WIDTH - 2.6 - BOX, first)):
        draw_box(canvas, Box(x, x + BOX, tab), draw if tab.draw else lane, BACK, look)
    middle, y = WIDTH / 2, lane + BACK.comb / 2
    tip = middle + ARROW
    canvas.line(0.5, (middle - ARROW, y), (tip - 0.8, y))
    canvas.fill(f"M{tip:.2f} {y:.2f}L{tip - 1.5:.2f} {y - 0.95:.2f}v1.9z")
    return canvas
