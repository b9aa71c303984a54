"""How blow and draw look: the style of marks, the ink, two colours of the teacher's."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.sheet.draw.canvas import BLACK
from formsheet.sheet.mark_styles import BOXES, MarkStyle


@dataclass(frozen=True, slots=True)
class Look:
    """What is the same for all boxes of a sheet."""

    marks: MarkStyle = BOXES
    light: bool = False  # a draw box is white with a black foot
    blow: str = BLACK  # ink of the outline and figure of a blow box
    draw: str = BLACK  # ink of a draw box

    def ink(self, drawn: bool) -> str:
        """The ink of a box, and of its figure where the box is white."""
        return self.draw if drawn else self.blow

    def filled(self, drawn: bool) -> bool:
        """Whether the box is filled, with a white figure."""
        return drawn and not self.light


PLAIN_LOOK = Look()
