"""Each bar of a printed sheet as it is read back: its comb, its boxes, what is where.

All is found from the ink: the two lines of the comb are the longest level lines of a bar, its
teeth are the grid of time. Lengths are points from the page's top left, unless they say mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from formsheet.sheet.draw.systems import BEFORE_REPEAT
from formsheet.sheet.view import Bar, Chorus, HoleMark, Sheet
from tests.sheet.printed import MM, Char, Page, Shape
from tests.sheet.tags import Tag, Tagged

WHITE = "#ffffff"
NEAR = 0.1 * MM


@dataclass(frozen=True)
class Sounding:
    """A note that a bar must show as one box; moments in quarters from the bar line."""

    onset: Fraction
    end: Fraction
    tab: HoleMark
    struck: bool  # False: held over from the bar before
    held_on: bool
    landing: bool = False
    technique: str = ""


@dataclass(frozen=True)
class PrintedBox:
    """A box: `near` is its edge at the comb, `far` its outer edge."""

    left: float
    right: float
    near: float
    far: float
    drawn: bool  # it hangs from the comb
    filled: bool
    torn_left: bool
    torn_right: bool
    round_right: bool
    outline: tuple[Shape, ...]
    fill: Shape

    @property
    def top(self) -> float:
        return min(self.near, self.far)

    @property
    def bottom(self) -> float:
        return max(self.near, self.far)

    def holds(self, each: Char | Shape) -> bool:
        """Whether the middle of something lies in it."""
        x, y = (each.left + each.right) / 2, (each.top + each.bottom) / 2
        return self.left < x < self.right and self.top < y < self.bottom

    def meets(self, each: Char | Shape | PrintedBox, by: float = 0.1 * MM) -> bool:
        """Whether something covers a part of it."""
        across = min(self.right, each.right) - max(self.left, each.left)
        down = min(self.bottom, each.bottom) - max(self.top, each.top)
        return across > by and down > by


@dataclass(frozen=True)
class Placed:
    """A bar of a chorus with its ink."""

    bar: Bar
    chorus: Chorus
    sounding: tuple[Sounding, ...]
    page: int  # from 0
    chars: tuple[Char, ...]
    shapes: tuple[Shape, ...]

    @cached_property
    def lines(self) -> tuple[Shape, Shape]:
        """The upper and the lower line of the comb."""
        level = [
            each
            for each in self.shapes
            if each.steps == "ml" and _level(each) and each.weight < 0.3 * MM
        ]
        longest = max(each.right - each.left for each in level)
        found = [each for each in level if longest - (each.right - each.left) < NEAR]
        one, other = sorted(found, key=lambda each: each.top)
        return one, other

    @property
    def top(self) -> float:
        """The middle of the upper line of the comb."""
        return (self.lines[0].top + self.lines[0].bottom) / 2

    @property
    def foot(self) -> float:
        """The middle of the lower line."""
        return (self.lines[1].top + self.lines[1].bottom) / 2

    @property
    def left(self) -> float:
        """The left end of the comb: the bar line."""
        return self.lines[0].points[0][0]

    @property
    def right(self) -> float:
        """The right end of the comb."""
        return self.lines[0].points[1][0]

    @cached_property
    def teeth(self) -> tuple[float, ...]:
        """The beats."""
        return tuple(
            sorted(
                (each.left + each.right) / 2
                for each in self.shapes
                if each.steps == "ml"
                and abs(each.points[0][0] - each.points[1][0]) < NEAR
                and abs(min(y for _, y in each.points) - self.top) < NEAR
                and max(y for _, y in each.points) < self.foot
            )
        )

    @property
    def start(self) -> Fraction:
        """The moment of the first tooth: 0, but for a pick-up."""
        return self.bar.length - len(self.teeth) * self.bar.beat

    @cached_property
    def unit(self) -> float:
        """Points a quarter."""
        if len(self.teeth) > 1:
            beats = (self.teeth[-1] - self.teeth[0]) / (len(self.teeth) - 1)
            return beats / float(self.bar.beat)
        opens = self.bar.number == 0 and self.chorus.opens_repeat
        right = self.right - (BEFORE_REPEAT * MM if opens else 0.0)  # clear of the heavy line
        return (right - self.teeth[0]) / float(self.bar.length - self.start)

    def x(self, onset: Fraction) -> float:
        """The place of a moment on the grid of the teeth."""
        return self.teeth[0] + float(onset - self.start) * self.unit

    @cached_property
    def boxes(self) -> tuple[PrintedBox, ...]:
        """All boxes, from left to right."""
        found = [box for each in self.shapes if (box := self._box(each))]
        return tuple(sorted(found, key=lambda box: (box.left, box.top)))

    def _box(self, each: Shape) -> PrintedBox | None:
        wide, high = each.right - each.left, each.bottom - each.top
        if each.weight or wide < 0.9 * MM or high < 3 * MM:
            return None
        if self.bar_line(each):
            return None
        hangs, stands = abs(each.top - self.foot), abs(each.bottom - self.top)
        if min(hangs, stands) > 0.35 * MM:
            return None
        drawn = hangs < stands
        outline = tuple(edge for edge in self.shapes if _frames(edge, each))
        half = outline[0].weight / 2 if outline and each.ink == WHITE else 0.0
        ends = [x for x, _ in each.points]
        torn = [sum(abs(x - edge) < 1.2 * MM for x in ends) > 5 for edge in (min(ends), max(ends))]
        left = each.left - (half if each.left - self.left > NEAR else 0.0)
        right = each.right + (half if self.right - each.right > NEAR else 0.0)
        top, bottom = each.top - half, each.bottom + half
        near, far = (top, bottom) if drawn else (bottom, top)
        return PrintedBox(
            left, right, near, far, drawn, each.ink != WHITE,
            torn[0], torn[1], not torn[1] and not _cornered(each, drawn), outline, each,
        )  # fmt: skip

    def bar_line(self, each: Shape) -> bool:
        """Whether a shape is a bar line, thick or thin."""
        return each.rectangle and each.top < self.top - MM and each.bottom > self.foot + MM

    def figures(self, box: PrintedBox) -> tuple[tuple[str, Char], ...]:
        """The holes in a box, the upper first, each with its first figure."""
        rows: dict[float, list[Char]] = {}
        for char in self.chars:
            if char.text.isdigit() and box.holds(char):
                rows.setdefault(char.base, []).append(char)
        found = []
        for _, row in sorted(rows.items()):
            row.sort(key=lambda char: char.left)
            found.append(("".join(char.text for char in row), row[0]))
        return tuple(found)

    @property
    def ink(self) -> tuple[Char | Shape, ...]:
        """All that it paints in ink."""
        return (*self.chars, *(each for each in self.shapes if each.ink != WHITE))


def _cornered(each: Shape, drawn: bool) -> bool:
    """Whether its outer corner at the right is not round."""
    y = each.bottom if drawn else each.top
    return any(
        abs(x - each.right) < 0.2 * MM and abs(at - y) < 0.2 * MM for x, at in each.points
    )  # fmt: skip


def _level(each: Shape) -> bool:
    return abs(each.points[0][1] - each.points[1][1]) < NEAR


def _frames(edge: Shape, fill: Shape) -> bool:
    """Whether a stroke is the outline of a filled box, or one of two lines that are."""
    if edge.weight < 0.3 * MM or max(
        abs(edge.left - fill.left), abs(edge.right - fill.right)
    ) > 0.4 * MM:  # fmt: skip
        return False
    above, below = edge.top + edge.weight / 2, edge.bottom - edge.weight / 2
    if len(edge.points) == 2:
        return min(abs(above - fill.top), abs(below - fill.bottom)) < NEAR
    return abs(above - fill.top) < NEAR and abs(below - fill.bottom) < NEAR


def placed_bars(sheet: Sheet, data: bytes, pages: Sequence[Page]) -> list[Placed]:
    """All bars of the choruses, in the order of the tune; fails where one has no figure."""
    figures = iter(tag for tag in Tagged(data).tags if tag.kind == "Figure")
    found = []
    for chorus, bar, before in _bars(sheet):
        figure = next(tag for tag in figures if tag.alt == (bar.spoken or "bar"))
        found.append(_placed(chorus, bar, sounding(bar, before), figure, pages))
    return found


def tune_bars(sheet: Sheet) -> Iterator[Bar]:
    """The bars of the choruses as they are played, pick-up bars too."""
    for _, bar, _ in _bars(sheet):
        yield bar


def systems(placed: Sequence[Placed]) -> list[list[Placed]]:
    """The lines: bars side by side."""
    found: list[list[Placed]] = []
    for each in placed:
        last = found[-1][-1] if found else None
        same = (
            last is not None
            and last.page == each.page
            and abs(last.top - each.top) < NEAR
            and abs(last.right - each.left) < NEAR
        )
        if same:
            found[-1].append(each)
        else:
            found.append([each])
    return found


def _bars(sheet: Sheet) -> Iterator[tuple[Chorus, Bar, HoleMark | None]]:
    """Each bar with its chorus and what may be held into it."""
    own: Chorus | None = None
    entering: HoleMark | None = None
    at_start: HoleMark | None = None
    for chorus in sheet.choruses:
        if not chorus.places:
            own, at_start = chorus, entering
        bars = [bar for line in chorus.lines for bar in line]
        if chorus.pickup:
            yield chorus, chorus.pickup, None
            entering = sounds_last(chorus.pickup, None)
        previous = -1
        for at, bar in enumerate(bars):
            before = entering
            if chorus.places and own:
                place = chorus.places[at]
                whole = [each for line in own.lines for each in line]
                if at == 0 or place != previous + 1:
                    before = at_start
                    for each in whole[:place]:
                        before = sounds_last(each, before)
                previous = place
            yield chorus, bar, before
            entering = sounds_last(bar, before)


def sounds_last(bar: Bar, before: HoleMark | None) -> HoleMark | None:
    """What sounds at the end of a bar."""
    for mark in bar.marks:
        if mark.tab is not None and not mark.hold:
            before = mark.tab
        elif mark.is_rest:
            before = None
    return before


def sounding(bar: Bar, before: HoleMark | None) -> tuple[Sounding, ...]:
    """What a bar must show, read from its marks."""
    found: list[Sounding] = []
    sounds = before
    for mark in bar.marks:
        end = mark.onset + mark.length
        if mark.hold:
            if found and found[-1].end == mark.onset and sounds is not None:
                last = found.pop()
                held = Sounding(
                    last.onset, end, last.tab, last.struck, mark.tied_on, last.landing,
                    last.technique,
                )  # fmt: skip
                found.append(held)
            elif sounds is not None:
                found.append(Sounding(mark.onset, end, sounds, False, mark.tied_on))
        elif mark.tab is not None:
            sounds = mark.tab
            found.append(
                Sounding(
                    mark.onset, end, mark.tab, True, mark.tied_on, mark.landing, mark.technique
                )
            )
        else:
            sounds = None
    return tuple(
        each if at + 1 == len(found) and each.end == bar.length else _ended(each)
        for at, each in enumerate(found)
    )


def _ended(each: Sounding) -> Sounding:
    return Sounding(
        each.onset, each.end, each.tab, each.struck, False, each.landing, each.technique
    )


def _placed(
    chorus: Chorus,
    bar: Bar,
    notes: tuple[Sounding, ...],
    figure: Tag,
    pages: Sequence[Page],
) -> Placed:
    (page,) = {page for page, _ in figure.pieces}
    pieces = {number for _, number in figure.pieces}
    chars = tuple(char for char in pages[page].chars if char.content in pieces)
    shapes = tuple(shape for shape in pages[page].shapes if shape.content in pieces)
    return Placed(bar, chorus, notes, page, chars, shapes)
