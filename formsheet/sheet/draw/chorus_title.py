"""The title over a chorus: on one line if it is legible, else smaller and on two."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.sheet.draw.masthead import SLACK, line_count
from formsheet.sheet.draw.metrics import Font, width

HEIGHT = 7.5  # mm, on one line or on two
NOTE = 0.785  # size of the note beside it, as a share of the title's
NOTE_GAP = 3.0  # mm between title and note
_ON_ONE_LINE = (14.0, 13.0, 12.0, 11.0, 10.0)  # pt
_ON_TWO_LINES = (9.5, 9.0, 8.0, 7.0, 6.0, 5.0, 4.0)


@dataclass(frozen=True, slots=True)
class TitleSetting:
    """Size and lines of a title."""

    size: float  # pt
    lines: int

    @property
    def leading(self) -> float:
        """Distance of base lines in millimetres."""
        return HEIGHT / self.lines


def set_title(title: str, note: str, room: float) -> TitleSetting:
    """The largest setting in which a title and its note fit a width of `room` millimetres."""
    for size in _ON_ONE_LINE:
        beside = NOTE_GAP + width(note, Font("regular", size * NOTE)) if note else 0.0
        if width(title, Font("bold", size)) + beside <= room * SLACK:
            return TitleSetting(size, 1)
    for size in _ON_TWO_LINES:
        if line_count(f"{title} {note}", Font("bold", size), room) <= 2:
            break
    return TitleSetting(size, 2)
