"""Hole numbers: their width and height, and their drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle, letter_font
from formsheet.sheet.view import HoleMark, Mark

SIZES = (22.0, 20.0, 19.0, 18.0, 17.0, 16.0, 15.0, 14.0, 13.0, 12.0, 11.0)  # pt, largest first
PLAIN = 14.0  # pt: down to this size, ticks are placed after the number if they fit
# em between two numbers on one side of the breath line: ticks after, ticks over, smallest size
ROOMY_GAP, CLOSE_GAP, LEAST_GAP = 0.36, 0.22, 0.2
DENSE = 15.0  # pt: numbers of at most this size may have their ticks above them, to be closer
LIFT = 0.41  # em from a number to the base line of ticks or a ring over it
ROOF = 0.47  # em, height of ticks or ring
EDGE = 0.8  # mm from a number to the bar line
FROM_LINE = 1.75  # mm from the breath line to the nearest number
NO_NUMBERS = 2.2  # mm of a side of the breath line without numbers
RING = "°"
BEARING = 0.03  # em, side bearing of a figure


@dataclass(frozen=True, slots=True)
class Look:
    """Settings for all bars of a sheet: how breath is shown, the least size of numbers (pt)."""

    marks: MarkStyle = BREATH_LINE
    least: float = SIZES[-1]

    def sizes(self, sizes: Sequence[float] = SIZES) -> tuple[float, ...]:
        """The sizes (pt) that are allowed, of those given."""
        return tuple(size for size in sizes if size >= self.least)


PLAIN_LOOK = Look()


@dataclass(frozen=True, slots=True)
class NumberStyle:
    """How large hole numbers are (pt)."""

    size: float
    roof: bool = False  # ticks above the number, not after it: for dense bars
    marks: MarkStyle = BREATH_LINE

    @property
    def lettered(self) -> bool:
        """Whether a letter follows each number."""
        return self.marks.letters is not None and not self.roof

    @property
    def outer(self) -> float:
        """Height (mm) of the breath mark on the outer side of a number."""
        return 0.0 if self.lettered else self.marks.outer_height(self.size)

    def beside(self, draw: bool) -> float:
        """Width (mm) of the letter that follows a number."""
        return self.marks.letter_width(draw, self.size) if self.lettered else 0.0

    def font(self, landing: bool) -> Font:
        """The font of a number: bold where the note is a landing."""
        return Font("bold" if landing else "regular", self.size)

    @property
    def gap(self) -> float:
        """The least gap between two numbers, in millimetres."""
        gap = CLOSE_GAP if self.size > SIZES[-1] else LEAST_GAP
        return self.font(False).mm * (gap if self.roof else ROOMY_GAP)

    @property
    def half_figure(self) -> float:
        """Half the width of a one-figure number, in millimetres."""
        return width("0", self.font(False)) / 2

    @property
    def pitch(self) -> float:
        """Distance of the base lines of stacked numbers, in millimetres."""
        return self.font(False).mm * 0.82

    @property
    def tongue_room(self) -> float:
        """Extra height between the numbers of a split, for the tongue bar."""
        return self.font(False).mm * 0.34


def extent(mark: Mark, style: NumberStyle) -> tuple[float, float]:
    """Extent of a number's ink left and right of its onset, in millimetres."""
    assert mark.tab is not None
    font = style.font(mark.landing)
    widths = [width(str(hole), font) for hole in mark.tab.holes]
    half = max(widths) / 2
    ticks = width("'" * mark.tab.bend, font)
    bearing = BEARING * font.mm
    if style.outer:
        half = max(half, style.marks.width(style.size) / 2)
    if style.roof:
        half = max(half, ticks / 2)
        return half - bearing, half - bearing
    after = style.beside(mark.tab.draw) + ticks
    return half - bearing, max(half, widths[-1] / 2 + after) - bearing


def _roof(tab: HoleMark, style: NumberStyle) -> float:
    """Height (mm) of ticks or ring above a number."""
    over = tab.overbend or (style.roof and tab.bend)
    return ROOF * style.font(False).mm if over else 0.0


def _stack_height(tab: HoleMark, style: NumberStyle) -> float:
    """Height of a number's figures, in millimetres."""
    gaps = len(tab.holes) - 1
    tongue = style.tongue_room if tab.split else 0.0
    return style.font(False).figure_height + gaps * (style.pitch + tongue)


def drop(marks: Sequence[Mark], style: NumberStyle) -> float:
    """Distance (mm) by which all drawn numbers are moved down for ticks or rings above them."""
    return max((_roof(tab, style) for _, tab in _printed(marks) if tab.draw), default=0.0)


def depth(marks: Sequence[Mark], style: NumberStyle, *, draw: bool, dropped: float = 0.0) -> float:
    """Height (mm) of a bar's numbers on one side of its breath line."""
    heights = [
        _stack_height(tab, style) + style.outer + (0.0 if draw else _roof(tab, style))
        for _, tab in _printed(marks)
        if tab.draw == draw
    ]
    held = any(mark.hold for mark in marks)  # its line may be on a side without numbers
    if not heights and not held:
        return NO_NUMBERS
    room = FROM_LINE + max(heights, default=style.font(False).figure_height)
    return room + (dropped if draw else 0.0)


def _printed(marks: Sequence[Mark]) -> Iterator[tuple[Mark, HoleMark]]:
    """The marks with printed numbers, each with its tab."""
    for mark in marks:
        if mark.tab is not None and not mark.hold:
            yield mark, mark.tab


def fits(marks: Sequence[Mark], scale: Scale, style: NumberStyle) -> bool:
    """Whether no numbers on one side of the breath line touch, and none leaves the bar."""
    ends = {False: EDGE - style.gap, True: EDGE - style.gap}
    for mark, tab in _printed(marks):
        left, right = extent(mark, style)
        x = scale.x(mark.onset)
        if x - left < ends[tab.draw] + style.gap:
            return False
        ends[tab.draw] = x + right
    return max(ends.values()) <= scale.width - EDGE


def best_style(
    marks: Sequence[Mark],
    scale: Scale,
    sizes: Sequence[float] = SIZES,
    breath: MarkStyle = BREATH_LINE,
) -> NumberStyle | None:
    """The first style in which a bar's numbers fit, or None; ticks after the number, then above."""
    styles = [NumberStyle(size, marks=breath) for size in sizes if size >= PLAIN]
    for size in sizes:
        if size < PLAIN:
            styles.append(NumberStyle(size, marks=breath))
        if size <= DENSE:
            styles.append(NumberStyle(size, roof=True, marks=breath))
    return next((style for style in styles if fits(marks, scale, style)), None)


def draw_number(
    canvas: Canvas, x: float, breath: float, mark: Mark, style: NumberStyle, dropped: float = 0.0
) -> tuple[float, float]:
    """Draw the hole numbers of a mark at x; returns middle height and right end of the ink.

    `dropped`: distance (mm) by which drawn numbers of this bar are moved down.
    """
    assert mark.tab is not None
    tab = mark.tab
    font = style.font(mark.landing)
    step = style.pitch + (style.tongue_room if tab.split else 0.0)
    high_to_low = tuple(reversed(tab.holes))
    if tab.draw:
        first = breath + FROM_LINE + dropped + font.figure_height
    else:
        first = breath - FROM_LINE - step * (len(tab.holes) - 1)
    for i, hole in enumerate(high_to_low):
        text = str(hole)
        y = first + i * step
        left = x - width(text, font) / 2
        end = canvas.text(left, y, text, font)
        if i == 0 and style.beside(tab.draw):
            end = canvas.text(end, y, style.marks.letter(tab.draw), letter_font(style.size))
        if i == 0 and tab.bend:
            ticks = "'" * tab.bend
            if style.roof:
                canvas.text(x, y - LIFT * font.mm, ticks, font, "middle")
            else:
                canvas.text(end, y, ticks, font)
        if i and tab.split:
            half = width("0", font) * 0.62
            bar = font.mm * 0.14
            middle = y - font.figure_height - (step - font.figure_height) / 2
            canvas.rectangle(x - half, middle - bar / 2, 2 * half, bar)
    if tab.overbend:
        y = first - LIFT * font.mm
        canvas.text(x, y, RING, style.font(landing=False), "middle")
    bottom = first + step * (len(tab.holes) - 1)
    if style.outer:
        top = first - font.figure_height - _roof(tab, style)
        edge = bottom if tab.draw else top
        style.marks.draw_outer(canvas, x, edge, tab.draw, style.size)
    return (first - font.figure_height + bottom) / 2, x + extent(mark, style)[1]
