"""Paper: the sizes that a sheet is printed on, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Paper:
    """A page and its margins."""

    width: float
    height: float
    side: float = 11.0  # margin left and right
    top: float = 8.0
    foot: float = 11.0  # margin at the bottom: the footer stands in it

    @property
    def room(self) -> float:
        """Width between the margins."""
        return self.width - 2 * self.side

    @property
    def depth(self) -> float:
        """Height between the margins."""
        return self.height - self.top - self.foot


PAPERS = {
    "A4": Paper(297.0, 210.0),
    "Letter": Paper(279.4, 215.9),
    "A4 portrait": Paper(210.0, 297.0, side=10.0),
    "Letter portrait": Paper(215.9, 279.4, side=10.0),
}
