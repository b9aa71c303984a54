"""Paper sizes and margins, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.sheet.options import PageSize


@dataclass(frozen=True, slots=True)
class Paper:
    """A page and its margins."""

    width: float
    height: float
    side: float = 11.0  # margin left and right
    top: float = 8.0
    foot: float = 11.0  # bottom margin, which contains the footer

    @property
    def room(self) -> float:
        """Width between the margins."""
        return self.width - 2 * self.side

    @property
    def depth(self) -> float:
        """Height between the margins."""
        return self.height - self.top - self.foot


PAPERS: dict[PageSize, Paper] = {
    "A4": Paper(297.0, 210.0),
    "Letter": Paper(279.4, 215.9),
    "A4 portrait": Paper(210.0, 297.0, side=10.0),
    "Letter portrait": Paper(215.9, 279.4, side=10.0),
}

ENLARGED = 1.55  # large print: numbers of 13 pt become 20 pt
LARGE_SIDE, LARGE_TOP, LARGE_FOOT = 6.5, 5.0, 10.0  # mm before the enlargement


def paper_for(page_size: PageSize, *, large: bool = False) -> tuple[Paper, float]:
    """The paper that a sheet is drawn on, and the factor by which it is enlarged in print.

    Large print is drawn on smaller paper and enlarged as a whole: type, lines and spaces.
    """
    paper = PAPERS[page_size]
    if not large:
        return paper, 1.0
    width, height = paper.width / ENLARGED, paper.height / ENLARGED
    return Paper(width, height, LARGE_SIDE, LARGE_TOP, LARGE_FOOT), ENLARGED
