"""Signs of techniques at the outer edge of a box, each drawn from a square of one unit.

The signs are our own, except the accent and the dot of a short note, which are those of printed
music.
"""

from __future__ import annotations

from collections.abc import Callable

from formsheet.sheet.draw.canvas import BLACK, Canvas
from formsheet.sheet.draw.note_box import circle
from formsheet.sheet.draw.rests import at

WEIGHT = 0.17  # of the height of a sign


def _stroke(*paths: str) -> Callable[[Canvas, float, float, float, str], None]:
    """A sign of lines; its paths are in units around the left end of its middle."""

    def draw(canvas: Canvas, x: float, y: float, unit: float, ink: str) -> None:
        for path in paths:
            canvas.stroke(WEIGHT * unit, at(path, x, y, unit), ink)

    return draw


def _fill(path: str) -> Callable[[Canvas, float, float, float, str], None]:
    def draw(canvas: Canvas, x: float, y: float, unit: float, ink: str) -> None:
        canvas.fill(at(path, x, y, unit), ink)

    return draw


def _wah(canvas: Canvas, x: float, y: float, unit: float, ink: str) -> None:
    """The hand closed, then open: a cross, then a ring."""
    _stroke("M0 0L.64 0M.32-.32L.32.32")(canvas, x, y, unit, ink)
    canvas.stroke(WEIGHT * unit, circle(x + 1.18 * unit, y, 0.34 * unit), ink)


def _short(canvas: Canvas, x: float, y: float, unit: float, ink: str) -> None:
    canvas.fill(circle(x + 0.25 * unit, y, 0.22 * unit), ink)


def _zigzag(count: int, step: float, half: float) -> str:
    points = (f"{i * step:.2f} {half if i % 2 else -half:.2f}" for i in range(count + 1))
    return "M" + "L".join(points)


def _wave(count: int, step: float, half: float) -> str:
    path = ["M0 0"]
    for i in range(count):
        bow = -half if i % 2 == 0 else half
        x = i * step
        path.append(
            f"C{x + step * 0.35:.2f} {bow * 1.35:.2f} {x + step * 0.65:.2f} {bow * 1.35:.2f} "
            f"{x + step:.2f} 0"
        )
    return "".join(path)


#: Technique -> its drawing from `x` (left) around `y`, `unit` mm high.
SIGNS: dict[str, Callable[[Canvas, float, float, float, str], None]] = {
    "wah": _wah,
    "shake": _stroke(_zigzag(6, 0.27, 0.34)),
    "dip": _stroke("M0-.36C.1.5.72.5.82-.36"),
    "scoop": _stroke("M0 .36C.5.36.85.05.95-.4"),
    "vibrato": _stroke(_wave(6, 0.34, 0.3)),
    "flutter": _stroke(_wave(4, 0.34, 0.26), "M0 .46L1.36 .46"),
    "slap": _fill("M0-.36L.84-.36L.42.42z"),
    "pull": _stroke("M0 0L.8-.4M0 0L.9 0M0 0L.8 .4"),
    "accent": _stroke("M0-.36L1.02 0L0 .36"),
    "short": _short,
}

#: Width of a sign in units.
WIDTHS = {
    "wah": 1.55, "shake": 1.65, "dip": 0.85, "scoop": 1.0, "vibrato": 2.05, "flutter": 1.4,
    "slap": 0.85, "pull": 0.85, "accent": 1.05, "short": 0.5,
}  # fmt: skip


def draw_sign(
    canvas: Canvas, technique: str, x: float, y: float, unit: float, ink: str = BLACK
) -> None:
    """Draw the sign of a technique from `x` on around `y`, `unit` (mm) high."""
    SIGNS[technique](canvas, x, y, unit, ink)
