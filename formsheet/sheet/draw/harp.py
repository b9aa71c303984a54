"""The harp map: ten holes with their notes; those that the tune plays are emphasised."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import HoleUse

CELL = 12.0  # mm, a hole
ROW = 6.6
BEND_ROW = 4.8
LABELS = 13.0  # mm for the words at the left
HOLE = Font("bold", 13)
USED = Font("bold", 12.5)
UNUSED = Font("regular", 11.5)
BENT = Font("regular", 11)
WORD = Font("regular", 10.5)


def harp_map(holes: Sequence[HoleUse]) -> Canvas:
    """The map: blow notes above the holes, draw notes below, bends outside."""
    up = max((len(_above(hole)) for hole in holes), default=0)
    down = max((len(_below(hole)) for hole in holes), default=0)
    top = up * BEND_ROW
    height = top + 3 * ROW + down * BEND_ROW + 1.0
    canvas = Canvas(LABELS + CELL * len(holes) + 0.5, height)
    y = top + ROW
    base = 2.15  # from the top of a row to its base line, less half of the row
    canvas.text(0, y - base, "blow", WORD)
    canvas.text(0, y + ROW - base, "hole", WORD)
    canvas.text(0, y + 2 * ROW - base, "draw", WORD)
    for i, hole in enumerate(holes):
        left = LABELS + i * CELL
        middle = left + CELL / 2
        canvas.text(middle, y + ROW - base, str(hole.hole), HOLE, "middle")
        for used, note, row in ((hole.blow_used, hole.blow, 0), (hole.draw_used, hole.draw, 2)):
            font = USED if used else UNUSED
            canvas.text(middle, y + row * ROW - base, accidentals(note), font, "middle")
            if used:
                foot = y + row * ROW - 0.7
                canvas.line(0.5, (middle - 3.2, foot), (middle + 3.2, foot))
        for j, text in enumerate(_above(hole)):
            canvas.text(middle, top - 1.2 - j * BEND_ROW, text, BENT, "middle")
        for j, text in enumerate(_below(hole)):
            canvas.text(middle, y + 2 * ROW + 3.4 + j * BEND_ROW, text, BENT, "middle")
        canvas.line(0.2, (left, y), (left, y + ROW))
    right = LABELS + CELL * len(holes)
    canvas.line(0.2, (right, y), (right, y + ROW))
    for level in (y, y + ROW):
        canvas.line(0.45, (LABELS - 0.1, level), (right + 0.1, level))
    return canvas


def _bends(bends: Sequence[tuple[int, str]]) -> list[str]:
    return ["'" * steps + " " + accidentals(note) for steps, note in sorted(bends)]


def _above(hole: HoleUse) -> list[str]:
    over = [f"° {accidentals(hole.over)}"] if hole.over and hole.hole <= 6 else []
    return [*_bends(hole.blow_bends), *over]


def _below(hole: HoleUse) -> list[str]:
    over = [f"° {accidentals(hole.over)}"] if hole.over and hole.hole > 6 else []
    return [*_bends(hole.draw_bends), *over]
