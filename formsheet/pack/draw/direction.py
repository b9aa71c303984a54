"""Marks beside the hole numbers that tell blow from draw: arrows, plus and minus, letters.

They stand on the outer side of a number, away from the breath line; a letter follows its number
where there is room. The numbers keep their side of the line.
"""

from __future__ import annotations

from formsheet.pack.draw.canvas import Canvas
from formsheet.pack.draw.metrics import Font, width
from formsheet.pack.options import MarkStyle

LETTER = 0.72  # of the number's size
LETTER_HEIGHT = 0.72  # em of a letter with its stem
ARROW = 0.52, 0.36  # em of the number: height and width
SIGN = 0.40  # em: a plus or minus is so wide
WEIGHT = 0.062  # em
AWAY = 0.16  # em from the number


def letter(draw: bool) -> str:
    """The letter of a breath, as the lesson writes it."""
    return "d" if draw else "b"


def letter_width(size: float, draw: bool) -> float:
    """Width (mm) of the letter that follows a number of a size (pt)."""
    return width(letter(draw), Font("regular", LETTER * size))


def outer_width(marks: MarkStyle, size: float) -> float:
    """Width (mm) of a mark that stands over or under a number of a size (pt)."""
    em = Font("regular", size).mm
    if marks == "letters":
        return letter_width(size, True)
    return {"arrows": ARROW[1], "signs": SIGN}.get(marks, 0.0) * em


def outer_height(marks: MarkStyle, size: float) -> float:
    """Height (mm) of such a mark, with the space between it and its number."""
    em = Font("regular", size).mm
    high = {"arrows": ARROW[0], "signs": SIGN, "letters": LETTER_HEIGHT * LETTER}.get(marks)
    return (high + AWAY) * em if high else 0.0


def draw_outer(
    canvas: Canvas, x: float, near: float, draw: bool, marks: MarkStyle, size: float
) -> None:
    """The mark of a number at x; `near` is the height (mm) of the number's outer edge."""
    em = Font("regular", size).mm
    down = 1 if draw else -1
    near += down * AWAY * em
    if marks == "arrows":
        _arrow(canvas, x, near, down, em)
    elif marks == "signs":
        _sign(canvas, x, near + down * SIGN * em / 2, draw, em)
    elif marks == "letters":
        font = Font("regular", LETTER * size)
        base = near + LETTER_HEIGHT * font.mm if draw else near
        canvas.text(x, base, letter(draw), font, "middle")


def _arrow(canvas: Canvas, x: float, near: float, down: int, em: float) -> None:
    """Away from the breath line: up and out for blow, down and in for draw."""
    high, half = ARROW[0] * em, ARROW[1] * em / 2
    tip = near + down * high
    barb = tip - down * half * 1.05
    canvas.line(WEIGHT * em, (x, near), (x, tip - down * WEIGHT * em))
    canvas.fill(f"M{x - half:.2f} {barb:.2f}L{x:.2f} {tip:.2f}L{x + half:.2f} {barb:.2f}"
                f"L{x:.2f} {barb + down * half * 0.4:.2f}z")  # fmt: skip


def _sign(canvas: Canvas, x: float, y: float, draw: bool, em: float) -> None:
    half = SIGN * em / 2
    canvas.line(WEIGHT * 1.3 * em, (x - half, y), (x + half, y))
    if not draw:
        canvas.line(WEIGHT * 1.3 * em, (x, y - half), (x, y + half))
