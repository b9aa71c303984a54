"""What faults of a printed sheet are told of: inks and their places, in words; what meets what."""

from __future__ import annotations

from tests.sheet.placed import Placed
from tests.sheet.printed import MM, Char, Shape

HAIR = 0.06  # mm: rounding
LITTLE = 0.15 * MM


def rgb(ink: str) -> tuple[float, float, float]:
    """The parts of "#rrggbb", 0 to 255."""
    red, green, blue = (float(int(ink[at : at + 2], 16)) for at in (1, 3, 5))
    return red, green, blue


def name_of(each: Char | Shape) -> str:
    return repr(each.text) if isinstance(each, Char) else "a shape"


def place_of(each: Char | Shape) -> str:
    """Its place in mm, so that an eye finds it."""
    return f"{each.left / MM:.1f}, {each.top / MM:.1f} mm"


def is_stub(each: Shape, placed: Placed) -> bool:
    """Whether it is the stub of a bar line in a held box."""
    middle = (each.left + each.right) / 2
    at_line = min(abs(middle - placed.left), abs(middle - placed.right)) < 0.1 * MM
    return each.rectangle and at_line and each.right - each.left < 0.7 * MM


def meet(one: Char | Shape, other: Char | Shape, by: float = LITTLE) -> bool:
    """Whether two inks share more than a hair."""
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > by and down > by
