"""Tab in a line of text: "4 draw", "3' draw", "1–3 draw", "1·4 blow", "6 overblow".

An apostrophe after a hole is a tick of its bend; the sheet sets it from the face of signs.
"""

from __future__ import annotations

import re

from formsheet.sheet.view import HoleMark

_CODE = re.compile(r"`((?:10|[1-9])+)(o?)([bd])('*)!?`")
_PIECE = re.compile(r"(?<=[,;]) ")
_RANGE = re.compile(r"(?<=\d)-(?=\d)")
_HOLE = re.compile("10|[1-9]")


def holes_text(mark: HoleMark) -> str:
    """The holes with the ticks of a bend: "4", "3''", "1–3" for a block, "1·4" for a split."""
    low, high = mark.holes[0], mark.holes[-1]
    if low == high:
        return f"{low}{mark.bend * chr(39)}"
    return f"{low}{'·' if mark.split else '–'}{high}"


def breath_text(mark: HoleMark) -> str:
    """The breath as players say it: "draw", "overblow"."""
    breath = "draw" if mark.draw else "blow"
    return f"over{breath}" if mark.overbend else breath


def tab_text(mark: HoleMark) -> str:
    """Holes and breath."""
    return f"{holes_text(mark)} {breath_text(mark)}"


def move_text(last: HoleMark, first: HoleMark) -> str:
    """From one tab to the next: "4 blow to 4 draw"; "nothing moves"."""
    return "nothing moves" if last == first else f"{tab_text(last)} to {tab_text(first)}"


def pieces(words: str) -> list[str]:
    """Holes as printed, in pieces that stay on one line: "draw 1–4,", "7–9;", "root: draw 1, 4"."""
    none, root, holes = words.partition(" root: ")
    return [none, f"{root.strip()} {holes}"] if root else _PIECE.split(words)


def printed_tabs(text: str) -> str:
    """A message with the tab of lessons in it, as the sheet prints tab: "`3d'`" is "3' draw"."""
    return _CODE.sub(lambda found: tab_text(_mark(found)), text).replace("`", "")


def with_dashes(text: str) -> str:
    """Ranges of bars as they are printed: "bars 1–4"."""
    return _RANGE.sub("–", text)


def _mark(found: re.Match[str]) -> HoleMark:
    holes = tuple(map(int, _HOLE.findall(found[1])))
    split = len(holes) == 2 and holes[1] - holes[0] > 1
    return HoleMark(holes, found[3] == "d", len(found[4]), bool(found[2]), split)
