"""The box of a note: blow boxes stand on the comb, draw boxes hang from it.

A box lasts as long as its note: square where the note is struck, round where it ends, open where
it sounds on through a bar line, torn where it sounds on in the next line. A bend makes it reach
further out. Lengths are millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from formsheet.sheet.draw.canvas import WHITE, Canvas, number
from formsheet.sheet.draw.figures import draw_figure, room
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import Measures
from formsheet.sheet.draw.metrics import MM_PER_PT, Font
from formsheet.sheet.view import HoleMark

OUTLINE = 0.36
AIR = 1.1  # white at both sides of a figure together
ROUND = 1.6  # radius of the end of a box
FOOT = 1.5  # height of the black foot of a draw box in light ink, at most
FOOT_SHARE = 0.16  # of the height of its box
SLANT = 0.28  # of a tick, to the right a millimetre of height
RING = 0.55  # weight of the ring of an overbend
ARC = 0.45  # of a radius: from a corner to the control points of its curve
TEETH = 5  # of a torn edge
TEAR = 0.9  # depth of a torn edge
STUB = 0.2  # of the box's height: what shows of a bar line in a held box
STUB_WEIGHT = 0.5
SQUARE = 0.26  # em of a chord's figures: a hole between the outer ones
BETWEEN = 0.08  # em between two of those squares
LEFT_FROM = 1.5  # widths of its figure: a box longer than this has it at the left
OVERLAP = 0.12  # by which a held box runs into the next bar, so that no gap shows


@dataclass(frozen=True, slots=True)
class Box:
    """A box to draw: its ends, and how they look."""

    left: float
    right: float
    tab: HoleMark
    #: "held": from the bar before; "torn": from the line before.
    starts: Literal["struck", "held", "torn"] = "struck"
    #: "held": into the next bar; "torn": into the next line.
    ends: Literal["round", "held", "torn"] = "round"

    @property
    def width(self) -> float:
        """Its width."""
        return self.right - self.left


def stacked(tab: HoleMark) -> bool:
    """Whether it has two figures, one above the other."""
    return len(tab.holes) > 1


def sags(tab: HoleMark) -> bool:
    """Whether its box reaches further out, for a bend or an overbend."""
    return bool(tab.bend or tab.overbend)


def foot_height(measures: Measures) -> float:
    """Height (mm) of the black foot of a draw box in light ink."""
    return min(FOOT, FOOT_SHARE * measures.box)


def box_height(tab: HoleMark, measures: Measures, look: Look, *, plain: bool = False) -> float:
    """Height (mm) of the box of a tab; `plain`: without what a bend adds."""
    high = measures.stack_box if stacked(tab) else measures.box
    foot = foot_height(measures) if look.light and tab.draw else 0.0
    return high + foot + (measures.sag if sags(tab) and not plain else 0.0)


def figure_em(tab: HoleMark, look: Look) -> float:
    """Width in em of a tab's figures, of the squares between them, and of their mark."""
    widest = max(room(hole) for hole in (tab.holes[0], tab.holes[-1]))
    return max(widest, _squares_em(tab)) + look.marks.beside


def figure_size(tab: HoleMark, width: float, measures: Measures, look: Look) -> float:
    """The size (pt) of the figures in a box of a width, at most that of the measures."""
    most = measures.stack if stacked(tab) else measures.hole
    return min(most, airy_size(width - OUTLINE, figure_em(tab, look) * MM_PER_PT, measures))


def airy_size(room: float, width: float, measures: Measures) -> float:
    """The size (pt) of a figure in a room (mm), with white at its sides unless it gets too small.

    `width`: mm a pt.
    """
    return max((room - AIR) / width, min(room / width, measures.crowded))


def figure_middle(box: Box, measures: Measures, look: Look) -> float:
    """The x of the middle of a box's figure; the count stands there too."""
    size = figure_size(box.tab, box.width, measures, look)
    return box.left + _middle(box, size, measures, look)


def _middle(box: Box, size: float, measures: Measures, look: Look) -> float:
    """From the left end of a box to the middle of its figure (without its mark)."""
    em = size * MM_PER_PT
    figure = figure_em(box.tab, look) * em
    left = (box.width - figure) / 2 if box.width < LEFT_FROM * figure else measures.pad
    return left + (figure - look.marks.beside * em) / 2


def _squares_em(tab: HoleMark) -> float:
    between = tab.holes[-1] - tab.holes[0] - 1
    return between * (SQUARE + BETWEEN) - BETWEEN if stacked(tab) and between else 0.0


def draw_box(canvas: Canvas, box: Box, base: float, measures: Measures, look: Look) -> float:
    """Draw a box on the line of the comb at `base`; returns the y of its outer edge."""
    tab = box.tab
    down = 1 if tab.draw else -1
    outer = base + down * box_height(tab, measures, look)
    draw_frame(canvas, box, base, outer, look, foot_height(measures))
    ink = WHITE if look.filled(tab.draw) else look.ink(tab.draw)
    if box.starts == "held":
        _stubs(canvas, box.left, base, outer, ink)
    else:
        _content(canvas, box, base, measures, look, ink)
    return outer


# ---- The frame -----------------------------------------------------------------------------


def draw_frame(
    canvas: Canvas, box: Box, base: float, outer: float, look: Look, foot: float = 1.0
) -> None:
    """Draw an empty box between the lines `base`, at the comb, and `outer`.

    `foot`: height (mm) of its black foot, if it is a draw box in light ink.
    """
    ink, down = look.ink(box.tab.draw), (1 if outer > base else -1)
    if look.filled(box.tab.draw):
        canvas.fill(_Outline(box, base, outer).closed(), ink)
        return
    half = OUTLINE / 2
    edge = _Outline(box, base + down * half, outer - down * half, half)
    canvas.fill(edge.closed(), WHITE)
    if box.tab.draw:
        canvas.fill(_Outline(box, outer - foot, outer, soft=False).closed(), ink)
    canvas.stroke(OUTLINE, edge.drawn(), ink)


@dataclass(frozen=True, slots=True)
class _Outline:
    """The outline of a box from `near` (at the comb) to `far`, `inset` from its ends."""

    box: Box
    near: float
    far: float
    inset: float = 0.0
    soft: bool = True  # the corner at the comb is round too

    @property
    def left(self) -> float:
        return self.box.left + (self.inset if self.box.starts != "held" else 0.0)

    @property
    def right(self) -> float:
        return self.box.right - (self.inset if self.box.ends != "held" else -OVERLAP)

    def closed(self) -> str:
        """The whole outline."""
        return f"M{_point(self.left, self.near)}{self._right_end()}{self._left_end()}z"

    def drawn(self) -> str:
        """The outline without the ends at which the note is held over a bar line."""
        start, end = self.box.starts != "held", self.box.ends != "held"
        left, right, near, far = self.left, self.right, self.near, self.far
        if start and end:
            return self.closed()
        if end:
            return f"M{_point(left, near)}{self._right_end()}L{_point(left, far)}"
        if start:
            return f"M{_point(right, far)}{self._left_end()}L{_point(right, near)}"
        return (
            f"M{_point(left, near)}L{_point(right, near)}M{_point(left, far)}L{_point(right, far)}"
        )

    def _left_end(self) -> str:
        """From the outer edge to the comb."""
        if self.box.starts != "torn":
            return f"L{_point(self.left, self.far)}L{_point(self.left, self.near)}"
        return _torn(self.left, self.far, self.near, -1)

    def _right_end(self) -> str:
        """From the comb to the outer edge."""
        right, near, far = self.right, self.near, self.far
        if self.box.ends == "torn":
            return _torn(right, near, far, 1)
        if self.box.ends == "held":
            return f"L{_point(right, near)}L{_point(right, far)}"
        bow = min(ROUND, self.box.width / 2.5, abs(far - near) / 2)
        down = bow if far > near else -bow
        start = f"L{_point(right, near)}"
        if self.soft:
            start = f"L{_point(right - bow, near)}" + _curve(
                (right - bow * ARC, near), (right, near + down * ARC), (right, near + down)
            )
        return f"{start}L{_point(right, far - down)}" + _curve(
            (right, far - down * ARC), (right - bow * ARC, far), (right - bow, far)
        )


def _curve(*points: tuple[float, float]) -> str:
    return "C" + " ".join(_point(*each) for each in points)


def _torn(x: float, first: float, last: float, side: int) -> str:
    """A torn edge from `first` to `last`, its teeth towards `side`."""
    step = (last - first) / (2 * TEETH)
    points = ((x + side * TEAR * (i % 2), first + i * step) for i in range(2 * TEETH + 1))
    return "".join(f"L{_point(*each)}" for each in points)


def _point(x: float, y: float) -> str:
    return f"{number(x)} {number(y)}"


def _stubs(canvas: Canvas, x: float, base: float, outer: float, ink: str) -> None:
    """What shows of the bar line in a held box: a short stub at either edge."""
    stub = STUB * (outer - base)
    for y in (base, outer - stub):
        top, high = min(y, y + stub), abs(stub)
        canvas.rectangle(x - STUB_WEIGHT / 2, top, STUB_WEIGHT, high, ink)


# ---- Inside --------------------------------------------------------------------------------


def _content(
    canvas: Canvas, box: Box, base: float, measures: Measures, look: Look, ink: str
) -> None:
    tab = box.tab
    size = figure_size(tab, box.width, measures, look)
    face = Font("regular" if box.starts == "torn" else "bold", size, ink)
    middle = box.left + _middle(box, size, measures, look)
    down = 1 if tab.draw else -1
    if stacked(tab):
        _stack(canvas, box, base, middle, face, measures, ink)
        top = base if tab.draw else base - measures.stack_box
        line = top + measures.stack_box / 2
    else:
        line = base + down * measures.box / 2
        draw_figure(canvas, middle, line + face.figure_height / 2, tab.holes[0], face)
    half = (figure_em(tab, look) - look.marks.beside) * face.mm / 2
    look.marks.draw(canvas, middle + half, line, tab.draw, face)
    if sags(tab):
        _sagging(canvas, box, middle - half, base, measures, ink)


def _stack(
    canvas: Canvas, box: Box, base: float, middle: float, font: Font, measures: Measures, ink: str
) -> None:
    """The highest and the lowest hole, and the holes between them as squares."""
    tab = box.tab
    high = measures.stack_box
    top = base if tab.draw else base - high
    between = tab.holes[-1] - tab.holes[0] - 1
    side = max(measures.square, SQUARE * font.mm) if between else 0.0
    white = (high - 2 * font.figure_height - side) / (4 if between else 3)
    draw_figure(canvas, middle, top + white + font.figure_height, tab.holes[-1], font)
    draw_figure(canvas, middle, top + high - white, tab.holes[0], font)
    step = side + BETWEEN * font.mm
    x = middle - (between * step - BETWEEN * font.mm) / 2
    y = top + (high - side) / 2
    for _ in range(between):
        if tab.split:
            canvas.rectangle(x, y, side, side, ink)
        else:
            edge = side * 0.2
            inner = number(side - 2 * edge)
            canvas.fill(
                f"M{_point(x, y)}h{number(side)}v{number(side)}h{number(-side)}z"
                f"M{_point(x + edge, y + edge)}v{inner}h{inner}v-{inner}z",
                ink,
            )
        x += step


def _sagging(
    canvas: Canvas, box: Box, left: float, base: float, measures: Measures, ink: str
) -> None:
    """The ticks of a bend or the ring of an overbend, in the part of the box that sags."""
    tab = box.tab
    down = 1 if tab.draw else -1
    inner = base + down * (measures.stack_box if stacked(tab) else measures.box)
    middle = inner + down * (measures.sag / 2 + 0.1)
    if tab.overbend:
        radius = measures.tick * 0.5
        x = left + radius + 0.3
        canvas.stroke(RING, circle(x, middle, radius), ink)
        return
    room_for = box.right - left - 1.0
    pitch = min(measures.tick_pitch, room_for / tab.bend)
    stroke = min(measures.tick_stroke, pitch * 0.6)
    draw_ticks(canvas, left + 0.2, middle, tab.bend, (measures.tick, pitch, stroke), ink)


def draw_ticks(
    canvas: Canvas,
    left: float,
    middle: float,
    count: int,
    sizes: tuple[float, float, float],
    ink: str,
) -> None:
    """Draw the ticks of a bend; `sizes`: height, pitch and stroke."""
    high, pitch, stroke = sizes
    for i in range(count):
        x = left + i * pitch
        canvas.fill(
            f"M{_point(x + SLANT * high, middle - high / 2)}h{number(stroke)}"
            f"L{_point(x + stroke, middle + high / 2)}h{number(-stroke)}z",
            ink,
        )


def circle(x: float, y: float, radius: float) -> str:
    """The path of a circle."""
    k = radius * 0.5523
    return (
        f"M{_point(x + radius, y)}"
        f"C{_point(x + radius, y + k)} {_point(x + k, y + radius)} {_point(x, y + radius)}"
        f"C{_point(x - k, y + radius)} {_point(x - radius, y + k)} {_point(x - radius, y)}"
        f"C{_point(x - radius, y - k)} {_point(x - k, y - radius)} {_point(x, y - radius)}"
        f"C{_point(x + k, y - radius)} {_point(x + radius, y - k)} {_point(x + radius, y)}z"
    )
