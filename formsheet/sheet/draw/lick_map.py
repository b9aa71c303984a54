"""The comb below a line of the lick map: a tooth at each bar, thick where a lick begins."""

from __future__ import annotations

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.view import MapRow

TOOTH = 1.5  # mm, and the height of the drawing
THIN, THICK = 0.25, 0.9  # mm: a tooth of a bar or of a lick; the line below, and where bars differ


def lick_comb(row: MapRow, across: int, width: float) -> Canvas:
    """The comb of a line, `across` bars and `width` mm wide; no line below bars left out.

    Thick teeth and lines extend upwards and inwards, so that the outer edges stay aligned.
    """
    canvas = Canvas(width, TOOTH)
    bar = width / across
    for cell in row:
        left, right = cell.first * bar, (cell.first + cell.span) * bar
        weight = THICK if cell.changed else THIN
        canvas.rectangle(left, TOOTH - weight, right - left, weight)
        for i in range(cell.span):
            tooth = THICK if i in cell.begins else THIN
            canvas.rectangle(left + i * bar, 0, tooth, TOOTH)
    return canvas


def comb_words(row: MapRow) -> str:
    """The comb in words for a screen reader: "bars 1-4; bar 5, not as in the first chorus"."""
    return "; ".join(
        f"{'bars' if cell.span > 1 else 'bar'} {cell.bars}"
        f"{', not as in the first chorus' if cell.changed else ''}"
        for cell in row
    )
