"""Lick cards to show on a screen while teaching or filming: SVG and PNG, clear and solid ground."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence

from formsheet.pack.draw.screen import Ground, draw_screens, screen_svg
from formsheet.pack.view import Sheet

FOLDER = "cards/"
GROUNDS: dict[Ground, str] = {"clear": "", "solid": "-solid"}  # and how their files' names end
#: Names that one common system keeps for devices, whatever follows the dot; from memory.
_DEVICES = re.compile(r"con|prn|aux|nul|(com|lpt)\d")


def card_files(sheet: Sheet) -> Iterator[tuple[str, bytes]]:
    """Names and contents: for each lick that is played, two grounds in two formats."""
    screens = [screen for card in sheet.cards for screen in draw_screens(card)]
    names = file_names(
        [f"{one.card.name} {one.part}" if one.parts > 1 else one.card.name for one in screens]
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


def file_names(names: Sequence[str]) -> list[str]:
    """A plain name for the files of each lick: ASCII, lower case, no two alike on any system."""
    taken: set[str] = set()
    found = []
    for name in names:
        plain = _plain(name)
        free, count = plain, 1
        while {free + ending for ending in GROUNDS.values()} & taken:
            count += 1
            free = f"{plain}-{count}"
        taken |= {free + ending for ending in GROUNDS.values()}
        found.append(free)
    return found


def _plain(name: str) -> str:
    """ASCII letters, figures and hyphens; "lick" where nothing of it is left."""
    letters = unicodedata.normalize("NFKD", name.casefold()).encode("ascii", "ignore").decode()
    plain = re.sub(r"[^a-z0-9]+", "-", letters).strip("-") or "lick"
    return f"{plain}-lick" if _DEVICES.fullmatch(plain) else plain
