"""Lick cards for the screen, as SVG: outlines only, so that they look the same everywhere.

The frame is 1920 by 1080 pixels. The drawing stays in the safe title area of SMPTE ST 2046-1, the
middle 90 per cent of width and height (the number is from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from typing import Literal

from formsheet.sheet.draw.canvas import number
from formsheet.sheet.draw.screen_head import draw_head, head_height, head_width, head_words
from formsheet.sheet.draw.screen_ink import Ink, Live, ink
from formsheet.sheet.draw.screen_layout import ScreenCard, screen_cards
from formsheet.sheet.view import Card

Ground = Literal["clear", "solid"]

WIDTH, HEIGHT = 1920, 1080
SAFE = 0.9
PAD = 32.0  # px from the edge of the plate to the ink
CORNER = 24.0
#: Opacity of the plate between ink and background: over a black picture it is still light enough
#: for a contrast of more than 14 to 1.
OPACITY = 0.86
ROOM, DEPTH = WIDTH * SAFE - 2 * PAD, HEIGHT * SAFE - 2 * PAD


@dataclass(frozen=True, slots=True)
class _Group:
    """Ink in its own unit, with its place (px)."""

    x: float
    y: float
    scale: float
    inks: tuple[Ink, ...]


@dataclass(frozen=True, slots=True)
class _Block:
    """The place (px) of heading and bars together: the middle of the frame."""

    width: float
    height: float

    @property
    def left(self) -> float:
        return (WIDTH - self.width) / 2

    @property
    def top(self) -> float:
        return (HEIGHT - self.height) / 2


def draw_screens(card: Card) -> list[ScreenCard]:
    """A lick on as many screens as it needs."""
    return screen_cards(card, ROOM, DEPTH - head_height(card.title, head_words(card, 99, 99), ROOM))


def screen_svg(screen: ScreenCard, ground: Ground, language: str) -> str:
    """A screen as an SVG document: black on white, or on a plate over a clear background."""
    card, laid = screen.card, screen.laid
    words = head_words(card, screen.part, screen.parts)
    wide = min(ROOM, max(laid.width * laid.scale, head_width(card.title, words)))
    head = head_height(card.title, words, wide)
    block = _Block(wide, head + laid.height * laid.scale)
    heading = draw_head(card.title, words, block.left, block.top, wide)
    groups = [_Group(0.0, 0.0, 1.0, tuple(heading)), *_bars(screen, block.top + head)]
    pickup = [card.pickup] if card.pickup else []
    spoken = " ".join(bar.spoken for bar in (*pickup, *card.bars))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}"'
        f' viewBox="0 0 {WIDTH} {HEIGHT}" role="img" lang="{escape(language)}">'
        f"<title>{escape(f'{card.title}, {words}')}</title><desc>{escape(spoken)}</desc>"
        f"{_behind(block, ground)}{''.join(map(_group, groups))}</svg>\n"
    )


def _behind(block: _Block, ground: Ground) -> str:
    """The background behind the ink."""
    if ground == "solid":
        return f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>'
    return (
        f'<rect x="{number(block.left - PAD)}" y="{number(block.top - PAD)}"'
        f' width="{number(block.width + 2 * PAD)}" height="{number(block.height + 2 * PAD)}"'
        f' rx="{number(CORNER)}" fill="#fff" fill-opacity="{OPACITY}"/>'
    )


def _bars(screen: ScreenCard, top: float) -> Iterator[_Group]:
    """The bars, from `top` (px) down."""
    laid = screen.laid
    left = (WIDTH - laid.width * laid.scale) / 2
    for y, line in screen.lines():
        x = line.indent
        for image in line.images:
            place = left + x * laid.scale, top + y * laid.scale
            yield _Group(*place, laid.scale, tuple(ink(image.drawing)))
            x += image.drawing.width


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
        stroke = f' fill="none" stroke="#000" stroke-width="{number(one.weight)}"'
        return f'<path d="{one.path}"{stroke}/>'
    return f'<path d="{one.path}"/>'
