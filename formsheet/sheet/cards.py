"""Lick cards for the screen, for teaching or filming: SVG and PNG, clear and solid background."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.file_names import file_names
from formsheet.sheet.draw.screen import Ground, draw_screens, screen_svg
from formsheet.sheet.view import Sheet

FOLDER = "cards/"
GROUNDS: dict[Ground, str] = {"clear": "", "solid": "-solid"}  # and the ends of their file names


def card_files(sheet: Sheet) -> Iterator[tuple[str, bytes]]:
    """Names and contents of the files: each played lick on two backgrounds in two formats."""
    screens = [screen for card in sheet.cards for screen in draw_screens(card)]
    names = file_names(
        (f"{one.card.name} {one.part}" if one.parts > 1 else one.card.name for one in screens),
        tuple(GROUNDS.values()),
    )
    for screen, name in zip(screens, names, strict=True):
        for ground, ending in GROUNDS.items():
            svg = screen_svg(screen, ground, sheet.language)
            yield f"{FOLDER}{name}{ending}.svg", svg.encode()
            yield f"{FOLDER}{name}{ending}.png", png(svg)


def png(svg: str) -> bytes:
    """An SVG drawing as PNG, in its own size; equal drawings give equal bytes."""
    from resvg_py import svg_to_bytes

    # System fonts are searched only if the sheet's typefaces lack a character.
    return bytes(svg_to_bytes(svg_string=svg, skip_system_fonts="<text" not in svg))
