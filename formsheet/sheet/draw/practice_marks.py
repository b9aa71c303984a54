"""What is drawn in the table of joins: lick letters in circles, arrows, boxes to tick.

Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.note_box import circle

WEIGHT = 0.4  # of circles, and of boxes to tick
LETTER = 0.62  # of a circle's diameter: the height of the letter's face
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
    def joined(self) -> float:
        """Width of two circles with their arrow."""
        return 2 * self.circle + ARROW


def tick_sizes(text: float, tempos: Sequence[str]) -> TickSizes:
    """The sizes beside texts of `text` pt; the longest tempo decides on the pitch."""
    share = text / 10.5
    longest = max((width(tempo, Font("regular", text - 1)) for tempo in tempos), default=0.0)
    return TickSizes(text, max(6.4 * share, longest + 1.3), 3.7 * share, 4.6 * share)


def draw_letters(letters: Sequence[str], sizes: TickSizes) -> Canvas:
    """The letters of licks in circles, from the first an arrow to the second."""
    size = sizes.circle
    wide = size if len(letters) < 2 else sizes.joined
    canvas = Canvas(wide + 0.2, size + 0.2, left=-0.1)
    middle = size / 2 + 0.1
    for at, letter in enumerate(letters):
        _lettered(canvas, at * (size + ARROW) + size / 2, middle, letter, size)
    if len(letters) == 2:
        left, right = size + AROUND, size + ARROW - AROUND
        canvas.line(WEIGHT, (left, middle), (right - 0.5, middle))
        canvas.fill(
            f"M{right:.2f} {middle:.2f}L{right - 1.4:.2f} {middle - 0.8:.2f}"
            f"L{right - 1.4:.2f} {middle + 0.8:.2f}z"
        )
    return canvas


def _lettered(canvas: Canvas, x: float, y: float, letter: str, size: float) -> None:
    font = Font("bold", LETTER * size / 0.353)
    wide = width(letter, font)
    if wide > size - 1.4:
        font = Font("bold", font.size * (size - 1.4) / wide)
    canvas.stroke(WEIGHT, circle(x, y, size / 2 - WEIGHT / 2))
    canvas.text(x, y + font.figure_height / 2, letter, font, "middle")


def letters_words(letters: Sequence[str]) -> str:
    """The same in words: "A", "A to B"."""
    return " to ".join(letters)


def draw_tempos(tempos: Sequence[str], sizes: TickSizes) -> Canvas:
    """The tempos over the columns of boxes."""
    font = Font("regular", sizes.text - 1)
    canvas = Canvas(sizes.pitch * len(tempos), sizes.text * 0.42)
    for at, tempo in enumerate(tempos):
        canvas.text((at + 0.5) * sizes.pitch, canvas.height - 0.8, tempo, font, "middle")
    return canvas


def draw_boxes(tempos: Sequence[str], start: float, sizes: TickSizes) -> Canvas:
    """A box for each tempo from `start` (beats a minute) on; the last in any case."""
    canvas = Canvas(sizes.pitch * len(tempos), sizes.box + WEIGHT)
    half, side = WEIGHT / 2, sizes.box
    for at in range(len(tempos)):
        if tempos[at] in boxed(tempos, start):
            x = (at + 0.5) * sizes.pitch - side / 2
            canvas.stroke(WEIGHT, f"M{x:.2f} {half:.2f}h{side:.2f}v{side:.2f}h-{side:.2f}z")
    return canvas


def boxed(tempos: Sequence[str], start: float) -> tuple[str, ...]:
    """The tempos to tick: from the first that is not below `start` on, the last in any case."""
    at = next((i for i, tempo in enumerate(tempos) if float(tempo) >= start - 0.01), None)
    return tuple(tempos[-1:] if at is None else tempos[at:])
