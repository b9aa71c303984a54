"""Lick cards to show on a screen while teaching or filming: SVG and PNG, clear and solid ground."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.pack.draw.screen import Ground, draw_screens, screen_svg
from formsheet.pack.file_names import file_names
from formsheet.pack.view import Sheet

FOLDER = "cards/"
GROUNDS: dict[Ground, str] = {"clear": "", "solid": "-solid"}  # and how their files' names end


def card_files(sheet: Sheet) -> Iterator[tuple[str, bytes]]:
    """Names and contents: for each lick that is played, two grounds in two formats."""
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
    """A drawing as PNG, in its own size; the same drawing gives the same bytes."""
    from resvg_py import svg_to_bytes

    # Faces of the machine are looked for only where ours lack a character.
    return bytes(svg_to_bytes(svg_string=svg, skip_system_fonts="<text" not in svg))
