"""Styles of marks for blow and draw on the sheet; each is one object in `MARK_STYLES`.

In `breath-line` a path along the breath line shows blow and draw. In the other styles every number
has its own mark on its outer side, away from the breath line; letters follow their number where
there is room. The numbers stay on their side of the line.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width

LETTER = 0.72  # of the number's size
LETTER_HEIGHT = 0.72  # em of a letter with its stem
ARROW = 0.52, 0.36  # em of the number: height and width
SIGN = 0.40  # em, width of a plus or minus
WEIGHT = 0.062  # em
AWAY = 0.16  # em from the number


@dataclass(frozen=True, slots=True, repr=False)
class MarkStyle:
    """A style of marks. No field has a default, so that a new style has to set them all.

    `draw` draws the mark of a blown or drawn number: `draw(canvas, x, near, drawn, size)`, where
    `x` is the middle of the number and `near` the edge of the mark that is nearest to it (both
    mm), and `size` that of the number (pt). A blown mark reaches up from `near`, a drawn one down,
    `height` far.
    """

    name: str  # as `--marks` takes it
    about: str  # for README and help: what is printed
    blow_words: str  # for the legend
    draw_words: str
    turn_words: str
    path: bool  # the breath line has a path, and numbers have no marks
    letters: tuple[str, str] | None  # of blow and draw, after the number; None: always outside it
    width: Callable[[float], float]  # of a mark, in mm, beside a number of a size (pt)
    height: float  # of a mark, in em of the number
    draw: Callable[[Canvas, float, float, bool, float], None]

    def __repr__(self) -> str:
        """The name, as in the record of a build."""
        return repr(self.name)

    def outer_height(self, size: float) -> float:
        """Height (mm) of a mark and the space between it and its number; `size` in pt."""
        return (self.height + AWAY) * Font("regular", size).mm if self.height else 0.0

    def draw_outer(self, canvas: Canvas, x: float, edge: float, drawn: bool, size: float) -> None:
        """Draw the mark of a number at x; `edge` is the y (mm) of the number's outer edge."""
        down = 1 if drawn else -1
        self.draw(canvas, x, edge + down * AWAY * Font("regular", size).mm, drawn, size)

    def letter(self, drawn: bool) -> str:
        """The letter that follows a number."""
        return self.letters[drawn] if self.letters else ""

    def letter_width(self, drawn: bool, size: float) -> float:
        """Width (mm) of the letter that follows a number; `size` of the number in pt."""
        return width(self.letter(drawn), letter_font(size))


def letter_font(size: float) -> Font:
    """The font of a letter; `size` of its number in pt."""
    return Font("regular", LETTER * size)


def _no_width(size: float) -> float:
    return 0.0


def _no_mark(canvas: Canvas, x: float, near: float, drawn: bool, size: float) -> None:
    pass


def _arrow_width(size: float) -> float:
    return ARROW[1] * Font("regular", size).mm


def _arrow(canvas: Canvas, x: float, near: float, drawn: bool, size: float) -> None:
    """Draw an arrow away from the breath line: up for blow, down for draw."""
    em, down = Font("regular", size).mm, 1 if drawn else -1
    high, half = ARROW[0] * em, ARROW[1] * em / 2
    tip = near + down * high
    barb = tip - down * half * 1.05
    canvas.line(WEIGHT * em, (x, near), (x, tip - down * WEIGHT * em))
    canvas.fill(f"M{x - half:.2f} {barb:.2f}L{x:.2f} {tip:.2f}L{x + half:.2f} {barb:.2f}"
                f"L{x:.2f} {barb + down * half * 0.4:.2f}z")  # fmt: skip


def _sign_width(size: float) -> float:
    return SIGN * Font("regular", size).mm


def _sign(canvas: Canvas, x: float, near: float, drawn: bool, size: float) -> None:
    """Draw a plus or a minus."""
    em, down = Font("regular", size).mm, 1 if drawn else -1
    y = near + down * SIGN * em / 2
    half = SIGN * em / 2
    canvas.line(WEIGHT * 1.3 * em, (x - half, y), (x + half, y))
    if not drawn:
        canvas.line(WEIGHT * 1.3 * em, (x, y - half), (x, y + half))


_LETTERS = "b", "d"  # as the lesson writes them


def _letter_width(size: float) -> float:
    return width("d", letter_font(size))  # a `b` is 0.4 % wider, but its ink is not


def _letter(canvas: Canvas, x: float, near: float, drawn: bool, size: float) -> None:
    font = letter_font(size)
    base = near + LETTER_HEIGHT * font.mm if drawn else near
    canvas.text(x, base, _LETTERS[drawn], font, "middle")


_CROSSES = "the numbers cross the line: the breath turns"

BREATH_LINE = MarkStyle(
    name="breath-line",
    about="a path that steps across the line where the breath turns",
    blow_words="above the line: blow, breath out",
    draw_words="below the line: draw, breath in",
    turn_words="the line steps up or down: the breath turns",
    path=True,
    letters=None,
    width=_no_width,
    height=0.0,
    draw=_no_mark,
)
ARROWS = MarkStyle(
    name="arrows",
    about="an arrow at each number, up for blow and down for draw",
    blow_words="arrow up, above the line: blow, breath out",
    draw_words="arrow down, below the line: draw, breath in",
    turn_words=_CROSSES,
    path=False,
    letters=None,
    width=_arrow_width,
    height=ARROW[0],
    draw=_arrow,
)
SIGNS = MarkStyle(
    name="signs",
    about="plus for blow and minus for draw",
    blow_words="plus, above the line: blow, breath out",
    draw_words="minus, below the line: draw, breath in",
    turn_words=_CROSSES,
    path=False,
    letters=None,
    width=_sign_width,
    height=SIGN,
    draw=_sign,
)
LETTERS = MarkStyle(
    name="letters",
    about="`4b` and `4d`",
    blow_words="b, above the line: blow, breath out",
    draw_words="d, below the line: draw, breath in",
    turn_words=_CROSSES,
    path=False,
    letters=_LETTERS,
    width=_letter_width,
    height=LETTER_HEIGHT * LETTER,
    draw=_letter,
)

#: All styles; the first is the default.
MARK_STYLES = (BREATH_LINE, ARROWS, SIGNS, LETTERS)


def mark_style(name: str) -> MarkStyle:
    """The style of a name; KeyError if unknown."""
    return {style.name: style for style in MARK_STYLES}[name]
