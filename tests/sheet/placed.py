"""Each bar of a printed sheet: what of its ink is where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.view import Bar, Sheet
from tests.sheet.printed import Char, Page
from tests.sheet.tags import Tag, Tagged

POINTS = 0.75  # in a CSS pixel, the unit in which WeasyPrint writes a figure's box


@dataclass(frozen=True)
class Placed:
    """A bar of a chorus, where its drawing lies (points, from the top left), and its characters."""

    bar: Bar
    page: int
    left: float
    top: float
    right: float
    bottom: float
    chars: tuple[Char, ...]

    def numbers(self) -> Iterator[tuple[str, float, float, str]]:
        """Figures in a row, each as text, the x of its middle, its size and its face."""
        for run in Page(0, 0, self.chars).runs() if self.chars else ():
            text = "".join(char.text for char in run)
            if text.isdigit():
                yield text, (run[0].left + run[-1].right) / 2, run[0].size, run[0].face


def placed_bars(sheet: Sheet, data: bytes, pages: Sequence[Page]) -> list[Placed]:
    """All bars of the choruses, in the order of the tune; fails where one has no figure."""
    figures = iter(tag for tag in Tagged(data).tags if tag.kind == "Figure")
    found = []
    for bar in tune_bars(sheet):
        figure = next(tag for tag in figures if tag.alt == (bar.spoken or "bar"))
        found.append(_placed(bar, figure, pages))
    return found


def tune_bars(sheet: Sheet) -> Iterator[Bar]:
    """The bars of the choruses as they are played, pick-up bars too."""
    for chorus in sheet.choruses:
        if chorus.pickup:
            yield chorus.pickup
        for line in chorus.lines:
            yield from line


def _placed(bar: Bar, figure: Tag, pages: Sequence[Page]) -> Placed:
    (page,) = {page for page, _ in figure.pieces}
    pieces = {number for _, number in figure.pieces}
    chars = tuple(char for char in pages[page].chars if char.content in pieces)
    left, top, right, bottom = (side * POINTS for side in figure.box)
    return Placed(bar, page, left, top, right, bottom, chars)
