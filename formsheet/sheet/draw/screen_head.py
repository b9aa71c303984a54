"""The head of a screen card: letter and title, harp and tempo. Lengths are pixels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, covered, width
from formsheet.sheet.draw.note_box import circle
from formsheet.sheet.draw.screen_ink import Ink, Live, ink
from formsheet.sheet.draw.typeface import Face
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Card

TITLE_SIZES = (106.0, 98.0, 90.0, 82.0, 76.0, 70.0, 64.0, 58.0, 55.0)  # em
HARP_SIZES = (60.0, 55.0)
MORE_SIZES = (55.0,)
ONE_LINE = 76.0  # a title is on one line down to this size
FACTS_SHARE = 0.6  # largest share of the width for harp and tempo
BETWEEN = 48.0  # least gap
LINES = 2  # most lines of a text, except at the smallest size
LEADING = 1.16
ASCENT = 0.95  # em from the top of a line to its base line, accents included
BELOW = 44.0
CIRCLE = 128.0  # diameter
CIRCLE_WEIGHT = 8.0
AFTER_CIRCLE = 28.0
FOREIGN_EM = 1.0  # em, width of a character that the faces lack: enough for any script


@dataclass(frozen=True, slots=True)
class _Set:
    """A text broken into lines."""

    lines: tuple[str, ...]
    font: Font

    @property
    def height(self) -> float:
        return len(self.lines) * LEADING * self.font.mm

    @property
    def width(self) -> float:
        return max((_wide(line, self.font) for line in self.lines), default=0.0)


@dataclass(frozen=True)
class ScreenHead:
    """The head of a card in a width of `room`."""

    letter: str
    title: _Set
    facts: tuple[_Set, ...]

    @property
    def height(self) -> float:
        """Its height with the space below it."""
        least = CIRCLE if self.letter else 0.0
        return max(least, self.title.height, sum(each.height for each in self.facts)) + BELOW

    def ink(self, left: float, top: float, room: float) -> Iterator[Ink]:
        """Its ink: letter and title at the left, harp and tempo at the right."""
        canvas = Canvas(0, 0)
        middle = top + (self.height - BELOW) / 2
        x = left
        if self.letter:
            draw_letter(canvas, self.letter, left, middle, CIRCLE)
            x += CIRCLE + AFTER_CIRCLE
        live = list(_lines(canvas, self.title, x, middle - self.title.height / 2))
        y = middle - sum(each.height for each in self.facts) / 2
        for each in self.facts:
            live += _lines(canvas, each, left + room, y, right=True)
            y += each.height
        yield from ink(canvas)
        yield from live


def screen_head(card: Card, part: int, parts: int, room: float) -> ScreenHead:
    """The head of one of the `parts` screens of a card."""
    more = f"{card.tempo} · {part} of {parts}" if parts > 1 else card.tempo
    share = room * FACTS_SHARE
    texts: tuple[tuple[str, Face, Sequence[float]], ...] = (
        (card.harp, "bold", HARP_SIZES),
        (more.removeprefix(" · "), "regular", MORE_SIZES),
    )
    facts = tuple(_set(text, face, sizes, share) for text, face, sizes in texts if text)
    left = CIRCLE + AFTER_CIRCLE if card.letter else 0.0
    beside = max((each.width for each in facts), default=0.0) + BETWEEN
    return ScreenHead(
        card.letter, _set(card.title, "bold", TITLE_SIZES, room - left - beside), facts
    )


def head_words(card: Card, part: int, parts: int) -> str:
    """The name of a screen: "A, Kettle, on I7, 2 of 3"."""
    words = [card.letter, card.title, accidentals(card.on)]
    if parts > 1:
        words.append(f"{part} of {parts}")
    return ", ".join(word for word in words if word)


def draw_letter(canvas: Canvas, letter: str, left: float, middle: float, size: float) -> None:
    """Draw a lick's letter in a circle of a diameter."""
    weight = CIRCLE_WEIGHT * size / CIRCLE
    canvas.stroke(weight, circle(left + size / 2, middle, (size - weight) / 2))
    font = pixels("bold", 0.62 * size)
    room = size - 4 * weight
    if width(letter, font) > room:
        font = pixels("bold", 0.62 * size * room / width(letter, font))
    canvas.text(left + size / 2, middle + font.figure_height / 2, letter, font, "middle")


def _lines(
    canvas: Canvas, text: _Set, x: float, top: float, *, right: bool = False
) -> Iterator[Live]:
    """Write the lines of a text from or up to `x`; yields those that our faces lack."""
    for i, line in enumerate(text.lines):
        y = top + (i * LEADING + ASCENT) * text.font.mm
        if not covered(line, text.font.face):
            start = x - _wide(line, text.font) if right else x
            yield Live(line, start, y, text.font.mm, text.font.face == "bold")
        else:
            canvas.text(x, y, line, text.font, "end" if right else "start")


def _set(text: str, face: Face, sizes: Sequence[float], room: float) -> _Set:
    """A text as large as possible: on one line, then on two, no word broken."""
    tries = [(1, size) for size in sizes if size >= ONE_LINE] + [(LINES, size) for size in sizes]
    for most, size in tries:
        font = pixels(face, size)
        lines = tuple(_broken(text, font, room))
        whole = all(_wide(word, font) <= room for word in text.split())
        if len(lines) <= most and whole:
            break
    return _Set(lines, font)


def _broken(text: str, font: Font, room: float) -> Iterator[str]:
    """The lines of a text; a word longer than a line is broken anywhere."""
    line = ""
    for word in text.split():
        joined = f"{line} {word}" if line else word
        if _wide(joined, font) <= room:
            line = joined
            continue
        if line:
            yield line
        line = ""
        for character in word:
            if line and _wide(line + character, font) > room:
                yield line
                line = ""
            line += character
    yield line


def pixels(face: Face, size: float) -> Font:
    """A face at a size in pixels: its metrics in "mm" are then pixels too."""
    return Font(face, size / MM_PER_PT)


def _wide(text: str, font: Font) -> float:
    if covered(text, font.face):
        return width(text, font)
    return sum(
        width(one, font) if covered(one, font.face) else FOREIGN_EM * font.mm for one in text
    )
