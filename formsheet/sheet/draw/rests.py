"""Rest signs, as paths around a centre: one unit is a tenth of the comb's height."""

from __future__ import annotations

import re

from formsheet.sheet.draw.canvas import number

_QUARTER = (
    "M-.75-3L.85-1.05C.15-.3.2.15 1.05 1.35C-.15.95-.6 1.75.3 2.95"
    "C-1.35 2-1.35.7-.05.65L-.95-.55C-.1-1.3-.1-1.75-.75-3z"
)
_EIGHTH = (
    "M-.1-1.2C-.1-.82-.4-.55-.75-.55C-1.12-.55-1.4-.82-1.4-1.2C-1.4-1.58-1.12-1.85-.75-1.85"
    "C-.4-1.85-.1-1.58-.1-1.2z"
    "M-.85-.7C-.2-.3.6-.6.95-1.5L1.2-1.5L.3 2.3L-.1 2.3L.65-.75C.2-.25-.4-.2-.85-.45z"
)
_SIXTEENTH = (
    "M.2-2C.2-1.62-.1-1.35-.45-1.35C-.82-1.35-1.1-1.62-1.1-2C-1.1-2.38-.82-2.65-.45-2.65"
    "C-.1-2.65.2-2.38.2-2z"
    "M-.2-.3C-.2.08-.5.35-.85.35C-1.22.35-1.5.08-1.5-.3C-1.5-.68-1.22-.95-.85-.95"
    "C-.5-.95-.2-.68-.2-.3z"
    "M-.55-1.5C.1-1.1.9-1.4 1.25-2.3L1.5-2.3L.2 2.7L-.2 2.7L.5.05C.05.5-.45.6-.95.4L-.95.15"
    "C-.3.5.4.3.75-.6L.95-1.55C.5-1.05-.1-1-.55-1.25z"
)
_HALF = "M-1.3-.1L1.3-.1L1.3-1.1L-1.3-1.1zM-1.9-.2L1.9-.2L1.9.2L-1.9.2z"
_WHOLE = "M-1.3.1L1.3.1L1.3 1.1L-1.3 1.1zM-1.9-.2L1.9-.2L1.9.2L-1.9.2z"
_DOT = "M.38 0C.38.21.21.38 0 .38C-.21.38-.38.21-.38 0C-.38-.21-.21-.38 0-.38C.21-.38.38-.21.38 0z"

PATHS = {"w": _WHOLE, "h": _HALF, "q": _QUARTER, "e": _EIGHTH, "s": _SIXTEENTH}
HALF_WIDTH = {"w": 1.9, "h": 1.9, "q": 1.1, "e": 1.4, "s": 1.5}  # units, left and right
DOT = 1.1  # units from dot to dot
UNITS = 7.6  # units in the height of the comb

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


def rest_width(value: str, dots: int, comb: float) -> float:
    """The width (mm) of a rest with its dots in a comb of a height."""
    return (2 * HALF_WIDTH[value] + DOT * dots) * comb / UNITS


def rest(value: str, dots: int, left: float, middle: float, comb: float) -> str:
    """A rest from `left` (mm) on, around the height `middle`."""
    unit = comb / UNITS
    x = left + HALF_WIDTH[value] * unit
    path = at(PATHS[value], x, middle, unit)
    first = x + (HALF_WIDTH[value] + DOT / 2) * unit
    return path + "".join(
        at(_DOT, first + i * DOT * unit, middle - 0.8 * unit, unit) for i in range(dots)
    )
