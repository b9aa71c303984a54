"""Licks for the screen, as SVG: outlines only, so that they look the same everywhere.

A card fills the frame of 1920 by 1080 pixels; a lower third stands at its foot, on a plate. All
ink stays in the safe title area of SMPTE ST 2046-1, the middle 90 per cent of width and height,
and a plate in its safe action area, the middle 93 per cent (both numbers are from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from typing import Literal

from formsheet.sheet.draw.canvas import BLACK, Canvas, number
from formsheet.sheet.draw.look import PLAIN_LOOK, Look
from formsheet.sheet.draw.metrics import width as text_width
from formsheet.sheet.draw.screen_head import (
    draw_letter,
    head_words,
    pixels,
    screen_head,
)
from formsheet.sheet.draw.screen_ink import Ink, Live, ink
from formsheet.sheet.draw.screen_layout import SCALE, ScreenCard, screen_cards
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Card

Ground = Literal["clear", "solid"]

WIDTH, HEIGHT = 1920, 1080
SAFE, ACTION = 0.9, 0.93
CORNER = 24.0
#: Opacity of the plate behind a card: over a black picture it is still light enough for a contrast
#: of more than 14 to 1. The plate of a lower third is white throughout.
OPACITY = 0.9
ROOM, DEPTH = WIDTH * SAFE, HEIGHT * SAFE
PAD_X, PAD_Y = WIDTH * (ACTION - SAFE) / 2, HEIGHT * (ACTION - SAFE) / 2  # from ink to plate
LOWER_DEPTH = 440.0  # px of bars at most
LOWER_PAD = 22.0  # px over and under the ink of a lower third
LETTER = 104.0  # px: diameter of its circle
NUMERAL, CHORD = 62.0, 55.0  # px, em
BESIDE = 44.0  # px from letter and chord to the bars
EDGE = 4.0  # px from the edge of the safe area to the middle of an outer bar line


@dataclass(frozen=True, slots=True)
class _Group:
    """Ink in its own unit, with its place (px)."""

    x: float
    y: float
    scale: float
    inks: tuple[Ink, ...]


@dataclass(frozen=True, slots=True)
class _Plate:
    """A rectangle behind the ink (px)."""

    x: float
    y: float
    width: float
    height: float

    def svg(self, opacity: float = 1.0) -> str:
        seen = "" if opacity == 1 else f' fill-opacity="{opacity}"'
        return (
            f'<rect x="{number(self.x)}" y="{number(self.y)}" width="{number(self.width)}"'
            f' height="{number(self.height)}" rx="{number(CORNER)}" fill="#fff"{seen}/>'
        )


# ---- Cards ---------------------------------------------------------------------------------


def draw_screens(card: Card, look: Look = PLAIN_LOOK) -> list[ScreenCard]:
    """A lick on as many screens as it needs."""
    head = screen_head(card, 99, 99, ROOM)
    return screen_cards(card, look, ROOM - 2 * EDGE, DEPTH - head.height)


def screen_svg(screen: ScreenCard, ground: Ground, language: str) -> str:
    """A card as an SVG document: black on white, or on a plate over a clear background."""
    head = screen_head(screen.card, screen.part, screen.parts, ROOM)
    high = head.height + screen.height * SCALE
    left, top = WIDTH * (1 - SAFE) / 2, (HEIGHT - high) / 2
    groups = [
        _Group(0.0, 0.0, 1.0, tuple(head.ink(left, top, ROOM))),
        *_bars(screen, left + EDGE, top + head.height),
    ]
    behind = f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>'
    if ground == "clear":
        plate = _Plate(left - PAD_X, top - PAD_Y, ROOM + 2 * PAD_X, high + 2 * PAD_Y)
        behind = plate.svg(OPACITY)
    return _document(screen, language, behind, groups)


# ---- Lower thirds --------------------------------------------------------------------------


def draw_lowers(card: Card, look: Look = PLAIN_LOOK) -> list[ScreenCard]:
    """A lick as one or several lower thirds, a line of bars each."""
    one = _one_chord(card)
    room = ROOM - _column(card, chord=one) - BESIDE - EDGE
    return screen_cards(card, look, room, LOWER_DEPTH, lines=1, heads=not one)


def lower_svg(screen: ScreenCard, language: str) -> str:
    """A lower third as an SVG document: letter, chord and comb on a plate, clear elsewhere."""
    chord = not any(plan.head for system, _ in screen.lines for plan in system.plans)
    high = max(screen.height * SCALE, LETTER + NUMERAL + CHORD + 40) + 2 * LOWER_PAD
    left = WIDTH * (1 - SAFE) / 2
    top = HEIGHT * (1 + SAFE) / 2 - high
    plate = _Plate(left - PAD_X, top, ROOM + 2 * PAD_X, high)
    beside = left + _column(screen.card, chord=chord) + BESIDE
    middle = top + high / 2
    bars = middle - screen.height * SCALE / 2
    groups = [
        _Group(0.0, 0.0, 1.0, tuple(ink(_beside(screen.card, left, middle, chord=chord)))),
        *_bars(screen, beside, bars),
    ]
    return _document(screen, language, plate.svg(), groups)


def _one_chord(card: Card) -> bool:
    """Whether it needs no chords and no changes of feel over its bars."""
    return (
        len({chord.numeral for bar in card.bars for chord in bar.chords}) == 1
        and not any(bar.feels for bar in card.bars)
    )  # fmt: skip


def _column(card: Card, *, chord: bool) -> float:
    """The width of the letter, and of the chord under it."""
    wide = LETTER if card.letter else 0.0
    if chord:
        first = card.bars[0].chords[0]
        wide = max(
            wide,
            text_width(accidentals(first.numeral), pixels("bold", NUMERAL)),
            text_width(accidentals(first.letter), pixels("regular", CHORD)),
        )
    return wide


def _beside(card: Card, left: float, middle: float, *, chord: bool) -> Canvas:
    """The letter in its circle, and the chord under it."""
    canvas = Canvas(0, 0)
    if not chord:
        if card.letter:
            draw_letter(canvas, card.letter, left, middle, LETTER)
        return canvas
    first = card.bars[0].chords[0]
    numeral, letter = pixels("bold", NUMERAL), pixels("regular", CHORD)
    gap, line = 34.0, 26.0
    words = numeral.figure_height + line + letter.figure_height
    y = middle - (words + (LETTER + gap if card.letter else 0.0)) / 2
    if card.letter:
        draw_letter(canvas, card.letter, left, y + LETTER / 2, LETTER)
        y += LETTER + gap
    y += numeral.figure_height
    canvas.text(left, y, accidentals(first.numeral), numeral)
    canvas.text(left, y + line + letter.figure_height, accidentals(first.letter), letter)
    return canvas


# ---- Both ----------------------------------------------------------------------------------


def _document(screen: ScreenCard, language: str, behind: str, groups: list[_Group]) -> str:
    card = screen.card
    pickup = [card.pickup] if card.pickup else []
    spoken = " ".join(bar.spoken for bar in (*pickup, *card.bars))
    words = head_words(card, screen.part, screen.parts)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}"'
        f' viewBox="0 0 {WIDTH} {HEIGHT}" role="img" lang="{escape(language)}">'
        f"<title>{escape(words)}</title><desc>{escape(spoken)}</desc>"
        f"{behind}{''.join(map(_group, groups))}</svg>\n"
    )


def _bars(screen: ScreenCard, left: float, top: float) -> Iterator[_Group]:
    """The bars, from `top` (px) down."""
    for system, y in screen.lines:
        for image in system.images():
            x = image.x - image.drawing.left
            place = left + x * SCALE, top + y * SCALE
            yield _Group(*place, SCALE, tuple(ink(image.drawing)))


def _group(group: _Group) -> str:
    place = f"translate({number(group.x)} {number(group.y)}) scale({group.scale:.4f})"
    return f'<g transform="{place}">{"".join(map(_drawn, group.inks))}</g>'


def _drawn(one: Ink) -> str:
    if isinstance(one, Live):
        bold = ' font-weight="700"' if one.bold else ""
        return (
            f'<text x="{number(one.x)}" y="{number(one.y)}" font-family="sans-serif"'
            f' font-size="{number(one.size)}"{bold}>{escape(one.text)}</text>'
        )
    if one.weight:
        stroke = f' fill="none" stroke="{one.ink}" stroke-width="{number(one.weight)}"'
        return f'<path d="{one.path}"{stroke}/>'
    filled = "" if one.ink == BLACK else f' fill="{one.ink}"'
    return f'<path d="{one.path}"{filled}/>'
