"""Shapes of notes and rests, as paths in millimetres around a centre."""

from __future__ import annotations

import re

from formsheet.sheet.draw.canvas import number

HEAD = 1.32  # half the width of a note head
STEM_X = 1.24  # the stem's middle, right of the head's centre
STEM = 0.28  # weight of a stem

_HEAD = (
    "M1.32-.42C1.5.1 .7.86-.3.94C-1 1-1.42.76-1.34.3"
    "C-1.22-.36-.5-.9.34-.95C.9-.98 1.24-.76 1.32-.42z"
)
_EYE = "M1-.4C.94-.7.5-.66-.1-.3C-.7.06-1.1.5-1 .66C-.88.86-.34.66.2.34C.74.02 1.1-.16 1-.4z"
_WHOLE = "M1.75 0C1.75.66.96 1 0 1C-.96 1-1.75.66-1.75 0C-1.75-.66-.96-1 0-1C.96-1 1.75-.66 1.75 0z"
_WHOLE_EYE = (
    "M.62-.3C.3-.86-.42-.9-.7-.5C-.92-.2-.84.12-.62.38C-.24.84.42.86.7.5C.92.2.8-.02.62-.3z"
)
_FLAG = "M0 0C.2 1.5 1.95 2 1.5 4.9C1.45 3.2 .8 2.5 0 2.2z"
_NARROW_FLAG = "M0 0C.1 1.4 1.1 1.9 .85 4.1C.8 2.9 .5 2.4 0 2.2z"
_REST_Q = (
    "M-.75-3L.85-1.05C.15-.3.2.15 1.05 1.35C-.15.95-.6 1.75.3 2.95"
    "C-1.35 2-1.35.7-.05.65L-.95-.55C-.1-1.3-.1-1.75-.75-3z"
)
_DOT = "M.38 0C.38.21.21.38 0 .38C-.21.38-.38.21-.38 0C-.38-.21-.21-.38 0-.38C.21-.38.38-.21.38 0z"
_BALL = "M.62 0C.62.34.34.62 0 .62C-.34.62-.62.34-.62 0C-.62-.34-.34-.62 0-.62C.34-.62.62-.34.62 0z"

_PAIR = re.compile(r"([MCLz])|(-?\d*\.?\d+)")


def at(path: str, x: float, y: float, scale: float = 1.0) -> str:
    """An absolute path (M, C, L, z), scaled and moved."""
    out = []
    odd = False
    for verb, value in _PAIR.findall(path):
        if verb:
            out.append(verb)
            odd = False
        else:
            out.append(number(scale * float(value) + (y if odd else x)) + " ")
            odd = not odd
    return "".join(out)


def head(value: str, x: float, y: float, scale: float = 1.0) -> str:
    """A note head: filled for a quarter and shorter, hollow for longer ones."""
    if value == "w":
        return at(_WHOLE, x, y) + at(_WHOLE_EYE, x, y)
    return at(_HEAD, x, y, scale) + (at(_EYE, x, y, scale) if value == "h" else "")


def flags(count: int, x: float, y: float, *, narrow: bool = False) -> str:
    """Flags at the top of a stem; `narrow` avoids a mark that follows closely."""
    return "".join(at(_NARROW_FLAG if narrow else _FLAG, x, y + 1.7 * i) for i in range(count))


def dots(count: int, x: float, y: float) -> str:
    """Dots of a note or rest, to the right of x."""
    return "".join(at(_DOT, x + 1.1 * i, y) for i in range(count))


def ball(x: float, y: float) -> str:
    """A small ball, as on the rest of an eighth."""
    return at(_BALL, x, y)


def rest(value: str, x: float, y: float) -> str:
    """A rest aligned with the left edge of a head at x, clear of a flag before it."""
    x += {"e": 0.4, "s": 0.9}.get(value, 0.0)
    if value == "q":
        return at(_REST_Q, x, y)
    if value in "wh":
        top = y if value == "w" else y - 1.05
        block = f"M{number(x - 1.3)} {number(top)}h2.6v1.05h-2.6z"
        return block + f"M{number(x - 2)} {number(y - 0.1)}h4v.2h-4z"
    count = 1 if value == "e" else 2
    top = y - 1.9
    parts = []
    for i in range(count):
        slip = -0.42 * i
        yy = top + 1.75 * i
        parts.append(ball(x - 0.62 + slip, yy + 0.2))
        parts.append(
            at("M-1 .35C-.4 1.05.7.75 1-.1L1.14.25C.6 1.15-.5 1.35-1 .35z", x + slip - 0.06, yy)
        )
    foot = top + 4.1 + (0.8 if count == 2 else 0)
    lean = (foot - top) * 0.25
    right = x + 0.98
    parts.append(
        f"M{number(right)} {number(top - 0.15)}L{number(right - lean)} {number(foot)}"
        f"h-.34L{number(right - 0.3)} {number(top - 0.05)}z"
    )
    return "".join(parts)


def tie(x1: float, x2: float, y: float, depth: float = 1.2) -> str:
    """A whole tie, below the heads."""
    third = (x2 - x1) * 0.25
    thick = depth + 0.38
    return (
        f"M{number(x1)} {number(y)}C{number(x1 + third)} {number(y + depth * 1.33)} "
        f"{number(x2 - third)} {number(y + depth * 1.33)} {number(x2)} {number(y)}"
        f"C{number(x2 - third)} {number(y + thick * 1.33)} "
        f"{number(x1 + third)} {number(y + thick * 1.33)} {number(x1)} {number(y)}z"
    )


def half_tie(head_x: float, edge_x: float, y: float, depth: float = 1.2) -> str:
    """Half a tie, from a head to the edge of the bar, where the other half begins."""
    thick = depth + 0.38
    middle = head_x + (edge_x - head_x) * 0.45
    near = head_x + (edge_x - head_x) * 0.22
    return (
        f"M{number(head_x)} {number(y)}C{number(near)} {number(y + depth * 0.75)} "
        f"{number(middle)} {number(y + depth)} {number(edge_x)} {number(y + depth)}"
        f"V{number(y + thick)}C{number(middle)} {number(y + thick)} "
        f"{number(near)} {number(y + thick * 0.8)} {number(head_x)} {number(y)}z"
    )
