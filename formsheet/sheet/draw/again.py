"""The sign of a bar that repeats an earlier one: the repeat stroke of notation, and its number."""

from __future__ import annotations

from formsheet.sheet.draw import glyphs
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.rows import BarPlan, Rows

WORDS = Font("regular", 11)
LEAST = 8.0  # pt
HEIGHT = 7.0  # mm, of the stroke
LEAN = 3.6  # mm between its foot and its head
THICK = 1.5
GAP = 2.2
UNDER = 1.4  # least mm from the lick's base line to the stroke


def draw_again(canvas: Canvas, plan: BarPlan, rows: Rows) -> None:
    """Draw stroke and words in the middle of the bar, at the breath line or slightly lower."""
    words, font = plan.bar.again, WORDS
    room = plan.edge - LEAN - THICK - GAP - 4.0
    while width(words, font) > room and font.size > LEAST:
        font = Font(font.face, font.size - 0.5)
    wide = LEAN + THICK + GAP + width(words, font)
    left = max(2.0, (plan.edge - wide) / 2)
    y = max(rows.breath, rows.lick + UNDER + HEIGHT / 2)
    repeat_stroke(canvas, left, y)
    canvas.text(left + LEAN + THICK + GAP, y + font.figure_height / 2, words, font)


def repeat_stroke(canvas: Canvas, left: float, y: float) -> None:
    """A leaning stroke between two dots, its middle at y."""
    top, foot = y - HEIGHT / 2, y + HEIGHT / 2
    canvas.fill(f"M{left:.2f} {foot:.2f}L{left + LEAN:.2f} {top:.2f}h{THICK}"
                f"L{left + THICK:.2f} {foot:.2f}z")  # fmt: skip
    canvas.fill(glyphs.ball(left + 0.7, y - 1.5))
    canvas.fill(glyphs.ball(left + LEAN + THICK - 0.7, y + 1.5))
