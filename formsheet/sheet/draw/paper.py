"""Paper sizes and margins, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.sheet.options import PageSize

LOOSE_HEAD = 6.0  # height of the head of a later study page
FOOTER = 9.2  # from the lower edge to the base line of the footer


@dataclass(frozen=True, slots=True)
class Paper:
    """A page and its margins."""

    width: float
    height: float
    side: float = 12.0  # margin left and right
    top: float = 11.0
    foot: float = 14.0  # bottom margin, which contains the footer

    @property
    def room(self) -> float:
        """Width between the margins."""
        return self.width - 2 * self.side

    @property
    def depth(self) -> float:
        """Height between the margins."""
        return self.height - self.top - self.foot

    @property
    def upright(self) -> bool:
        """Whether it is higher than wide."""
        return self.height > self.width


PAPERS: dict[PageSize, Paper] = {
    "A4": Paper(297.0, 210.0),
    "Letter": Paper(279.4, 215.9),
    "A4 portrait": Paper(210.0, 297.0),
    "Letter portrait": Paper(215.9, 279.4),
}
