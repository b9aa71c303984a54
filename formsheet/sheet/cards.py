"""Licks for the screen, for teaching or filming: cards and lower thirds, as SVG and PNG."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO

from formsheet.file_names import file_names
from formsheet.sheet.draw.look import PLAIN_LOOK, Look
from formsheet.sheet.draw.screen import (
    Ground,
    draw_lowers,
    draw_screens,
    lower_svg,
    screen_svg,
)
from formsheet.sheet.draw.screen_layout import ScreenCard
from formsheet.sheet.view import Sheet

FOLDER = "cards/"
GROUNDS: dict[Ground, str] = {"clear": "", "solid": "-solid"}  # and the ends of their file names
LOWER = "lower"  # in the names of lower thirds
_MOST_COLOURS = 256  # of a palette: PNG (ISO/IEC 15948), colour type 3


def card_files(sheet: Sheet, look: Look = PLAIN_LOOK) -> Iterator[tuple[str, bytes]]:
    """Names and contents of the files, in two formats each.

    Each played lick is a card on two backgrounds, and a lower third.
    """
    screens = [screen for card in sheet.cards for screen in draw_screens(card, look)]
    lowers = [lower for card in sheet.cards for lower in draw_lowers(card, look)]
    wanted = [*_named(screens), *_named(lowers, LOWER)]
    names = file_names(wanted, tuple(GROUNDS.values()))
    for screen, name in zip(screens, names, strict=False):
        for ground, ending in GROUNDS.items():
            yield from _both(name + ending, screen_svg(screen, ground, sheet.language))
    for lower, name in zip(lowers, names[len(screens) :], strict=True):
        yield from _both(name, lower_svg(lower, sheet.language))


def _named(screens: Sequence[ScreenCard], more: str = "") -> Iterator[str]:
    """A name for each screen: "porch", "porch 2", "porch lower 2"."""
    for one in screens:
        part = str(one.part) if one.parts > 1 else ""
        yield " ".join(word for word in (one.card.name, more, part) if word)


def _both(name: str, svg: str) -> Iterator[tuple[str, bytes]]:
    yield f"{FOLDER}{name}.svg", svg.encode()
    yield f"{FOLDER}{name}.png", png(svg)


def png(svg: str) -> bytes:
    """An SVG drawing as PNG, in its own size; equal drawings give equal bytes."""
    from resvg_py import svg_to_bytes

    # System fonts are searched only if the sheet's typefaces lack a character.
    return _indexed(bytes(svg_to_bytes(svg_string=svg, skip_system_fonts="<text" not in svg)))


def _indexed(png: bytes) -> bytes:
    """The same picture with a palette, half as large; as it was with more than 256 colours."""
    import numpy as np
    from PIL import Image

    picture = Image.open(BytesIO(png)).convert("RGBA")
    found = picture.getcolors(_MOST_COLOURS)
    if found is None:
        return png
    palette = np.unique(np.array([colour for _, colour in found], np.uint8).view("<u4"))
    places = np.searchsorted(palette, np.asarray(picture).view("<u4")[..., 0])
    indexed = Image.fromarray(places.astype(np.uint8), "P")
    indexed.putpalette(palette.view(np.uint8).tobytes(), "RGBA")
    out = BytesIO()
    indexed.save(out, "PNG")
    return out.getvalue()
