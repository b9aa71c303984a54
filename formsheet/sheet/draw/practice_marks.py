"""What is drawn in the table of joins: lick letters in circles, arrows, boxes to tick.

Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, width

WEIGHT = 0.4  # of circles, and of boxes to tick
LETTER = 0.69  # of a circle's diameter: the height of the letter's face
LEAST = 9.0  # pt
ARROW = 4.2  # from one circle to the next
AROUND = 0.7  # white at either end of an arrow


@dataclass(frozen=True, slots=True)
class TickSizes:
    """The sizes of a table to tick off."""

    text: float  # pt
    pitch: float  # from one box to the next
    box: float  # side of a box
    circle: float  # diameter

    @property
    def font(self) -> Font:
        """The face of the letters."""
        return Font("bold", max(LEAST, LETTER * self.circle / MM_PER_PT))

    @property
    def tempo(self) -> Font:
        """The face of the tempos."""
        return Font("regular", max(LEAST, self.text - 1))

    def sign(self, letters: Sequence[str]) -> float:
        """Width of letters in their circles, with the arrow between them."""
        return sum(map(self.ring, letters)) + ARROW * max(0, len(letters) - 1)

    def ring(self, letter: str) -> float:
        """Width of the circle round a letter; that of two characters is oblong."""
        return max(self.circle, width(letter, self.font) + 1.7)


def tick_sizes(text: float, tempos: Sequence[str], row: float = 9.0) -> TickSizes:
    """The sizes beside texts of `text` pt in rows of a height (mm).

    The longest tempo decides on the pitch.
    """
    share = text / 10.5
    font = Font("regular", max(LEAST, text - 1))
    longest = max((width(tempo, font) for tempo in tempos), default=0.0)
    return TickSizes(
        text,
        max(6.2 * share, longest + 1.3),
        min(3.7 * share, row - 0.6),
        min(4.6 * share, row - 0.3),
    )


def draw_letters(letters: Sequence[str], sizes: TickSizes) -> Canvas:
    """The letters of licks in circles, from the first an arrow to the second."""
    canvas = Canvas(sizes.sign(letters) + 0.2, sizes.circle + 0.2, left=-0.1)
    middle = sizes.circle / 2 + 0.1
    x = 0.0
    for letter in letters:
        _ring(canvas, x, middle, letter, sizes)
        x += sizes.ring(letter) + ARROW
    if len(letters) == 2:
        start = sizes.ring(letters[0])
        left, right = start + AROUND, start + ARROW - AROUND
        canvas.line(WEIGHT, (left, middle), (right - 0.5, middle))
        canvas.fill(
            f"M{right:.2f} {middle:.2f}L{right - 1.4:.2f} {middle - 0.8:.2f}"
            f"L{right - 1.4:.2f} {middle + 0.8:.2f}z"
        )
    return canvas


def _ring(canvas: Canvas, left: float, y: float, letter: str, sizes: TickSizes) -> None:
    wide, radius = sizes.ring(letter), (sizes.circle - WEIGHT) / 2
    first, last = left + sizes.circle / 2, left + wide - sizes.circle / 2
    k = radius * 0.5523  # a quarter of a circle as a curve
    canvas.stroke(
        WEIGHT,
        f"M{first:.2f} {y - radius:.2f}L{last:.2f} {y - radius:.2f}"
        f"C{last + k:.2f} {y - radius:.2f} {last + radius:.2f} {y - k:.2f} "
        f"{last + radius:.2f} {y:.2f}"
        f"C{last + radius:.2f} {y + k:.2f} {last + k:.2f} {y + radius:.2f} "
        f"{last:.2f} {y + radius:.2f}"
        f"L{first:.2f} {y + radius:.2f}"
        f"C{first - k:.2f} {y + radius:.2f} {first - radius:.2f} {y + k:.2f} "
        f"{first - radius:.2f} {y:.2f}"
        f"C{first - radius:.2f} {y - k:.2f} {first - k:.2f} {y - radius:.2f} "
        f"{first:.2f} {y - radius:.2f}z",
    )
    font = sizes.font
    canvas.text(left + wide / 2, y + font.figure_height / 2, letter, font, "middle")


def letters_words(letters: Sequence[str]) -> str:
    """The same in words: "A", "A to B"."""
    return " to ".join(letters)


def draw_tempos(tempos: Sequence[str], sizes: TickSizes, words: Sequence[str]) -> Canvas:
    """The tempos over the columns of boxes, and above them the first words that have room."""
    font = sizes.tempo
    line = sizes.text * 0.42
    canvas = Canvas(sizes.pitch * len(tempos), 2 * line)
    said = replace(font, face="italic")
    inner = (sizes.pitch - sizes.box) / 2
    what = next((each for each in words if width(each, said) <= canvas.width - inner), "")
    if what:
        canvas.text(canvas.width - inner, line - 0.8, what, said, "end")
    for at, tempo in enumerate(tempos):
        canvas.text((at + 0.5) * sizes.pitch, canvas.height - 0.8, tempo, font, "middle")
    return canvas


def draw_boxes(tempos: Sequence[str], start: float, sizes: TickSizes) -> Canvas:
    """A box for each tempo from the one at or below `start` (beats a minute) on."""
    canvas = Canvas(sizes.pitch * len(tempos), sizes.box + WEIGHT)
    half, side = WEIGHT / 2, sizes.box
    for at in range(len(tempos)):
        if tempos[at] in boxed(tempos, start):
            x = (at + 0.5) * sizes.pitch - side / 2
            canvas.stroke(WEIGHT, f"M{x:.2f} {half:.2f}h{side:.2f}v{side:.2f}h-{side:.2f}z")
    return canvas


def boxed(tempos: Sequence[str], start: float) -> tuple[str, ...]:
    """The tempos to tick: from the largest that is not above `start` on; all if all are above."""
    at = sum(float(tempo) <= start + 0.01 for tempo in tempos)
    return tuple(tempos[max(0, at - 1) :])
