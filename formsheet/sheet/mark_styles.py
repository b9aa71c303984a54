"""Styles of marks for blow and draw, beside the figure; each is one object in `MARK_STYLES`.

In `boxes` a figure has no mark: boxes above the comb are blow, boxes below it draw. The other
styles add the mark that students know, in the same boxes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font

GAP = 0.05  # em of the figure, from it to its mark
WIDE = 0.3  # em: width of a mark
WEIGHT = 0.1  # em
LETTER = 0.6  # of the figure's size


@dataclass(frozen=True, slots=True, repr=False)
class MarkStyle:
    """A style of marks. No field has a default, so that a new style has to set them all.

    `draw(canvas, right, middle, drawn, font)` draws the mark of a blown or drawn figure: `right`
    is the figure's right end and `middle` its middle height (mm), `font` its face, size and ink.
    """

    name: str  # as `--marks` takes it
    about: str  # for README and help: what is printed
    blow_words: str  # for the legend
    draw_words: str
    beside: float  # em of the figure: the width of gap and mark
    draw: Callable[[Canvas, float, float, bool, Font], None]

    def __repr__(self) -> str:
        """The name, as in the record of a build."""
        return repr(self.name)


def _nothing(canvas: Canvas, right: float, middle: float, drawn: bool, font: Font) -> None:
    pass


def _arrow(canvas: Canvas, right: float, middle: float, drawn: bool, font: Font) -> None:
    """An arrow away from the comb: up for blow, down for draw."""
    em, down = font.mm, 1 if drawn else -1
    x, half, high = right + (GAP + WIDE / 2) * em, WIDE / 2 * em, 0.3 * em
    tip, tail = middle + down * high, middle - down * high
    canvas.line(WEIGHT * em, (x, tail), (x, tip - down * half), ink=font.ink)
    canvas.fill(
        f"M{x - half:.2f} {tip - down * half * 1.3:.2f}L{x:.2f} {tip:.2f}"
        f"L{x + half:.2f} {tip - down * half * 1.3:.2f}z",
        font.ink,
    )


def _sign(canvas: Canvas, right: float, middle: float, drawn: bool, font: Font) -> None:
    """Plus for blow, minus for draw."""
    em = font.mm
    x, half = right + (GAP + WIDE / 2) * em, WIDE / 2 * em
    canvas.line(WEIGHT * em, (x - half, middle), (x + half, middle), ink=font.ink)
    if not drawn:
        canvas.line(WEIGHT * em, (x, middle - half), (x, middle + half), ink=font.ink)


def _letter(canvas: Canvas, right: float, middle: float, drawn: bool, font: Font) -> None:
    """`b` for blow, `d` for draw, on the base line of the figure."""
    small = replace(font, size=LETTER * font.size, face="regular")
    canvas.text(right + GAP * font.mm, middle + font.figure_height / 2, "bd"[drawn], small)


_LETTER_EM = 0.41  # the wider of the two letters with its gap; a test holds it to the face

BOXES = MarkStyle(
    name="boxes",
    about="no mark beside the figure: white boxes above, black ones below",
    blow_words="blow, above",
    draw_words="draw, below",
    beside=0.0,
    draw=_nothing,
)
ARROWS = MarkStyle(
    name="arrows",
    about="an arrow beside each figure, up for blow and down for draw",
    blow_words="arrow up, above: blow",
    draw_words="arrow down, below: draw",
    beside=GAP + WIDE,
    draw=_arrow,
)
SIGNS = MarkStyle(
    name="signs",
    about="plus for blow and minus for draw beside each figure",
    blow_words="plus, above: blow",
    draw_words="minus, below: draw",
    beside=GAP + WIDE,
    draw=_sign,
)
LETTERS = MarkStyle(
    name="letters",
    about="`4b` and `4d`",
    blow_words="b, above: blow",
    draw_words="d, below: draw",
    beside=_LETTER_EM,
    draw=_letter,
)

#: All styles; the first is the default.
MARK_STYLES = (BOXES, ARROWS, SIGNS, LETTERS)


def mark_style(name: str) -> MarkStyle:
    """The style of a name; KeyError if unknown."""
    return {style.name: style for style in MARK_STYLES}[name]
