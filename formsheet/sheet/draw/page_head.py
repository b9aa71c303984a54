"""The head of the front page: title, harp and tempo, one line for the student.

Sizes are computed before typesetting, so that the bars know their room. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.feel import feel_width
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.view import Sheet

TITLE = 28.0  # pt, and of a crowded page
CROWDED_TITLE = 22.0
LEAST_TITLE = 14.0
TITLE_LINES = 2  # at most, except at the least size
LEADING = 1.12
HARP = Font("bold", 13)
MORE = Font("regular", 11)
SAY = Font("regular", 11)
HARP_ROW, MORE_ROW = 5.6, 5.4
BESIDE = 8.0  # between title and facts
BELOW = 2.2  # under the head
SAY_ROW = 5.4
SLACK = 0.96  # share of the width used here, so that typesetting never needs more lines


@dataclass(frozen=True, slots=True)
class PageHead:
    """What the head shows, and how large."""

    title_size: float  # pt
    title_room: float
    facts_room: float
    stacked: bool  # the facts stand below the title
    say: str  # "" where it stands on the back
    height: float


def line_count(text: str, font: Font, room: float) -> int:
    """The number of lines of a paragraph in a width of `room` millimetres."""
    lines, x, gap = 1, 0.0, width(" ", font)
    for word in text.split():
        wide = width(word, font)
        if x and x + wide > room * SLACK:  # an empty line may come before a word that is broken
            lines, x = lines + (2 if wide > room * SLACK else 1), 0.0
        lines += int(wide // (room * SLACK))
        x += wide % (room * SLACK) + gap
    return lines


def page_head(sheet: Sheet, room: float, *, roomy: bool, large: bool = False) -> PageHead:
    """The head in a page width of `room`; `roomy`: a large title, and a line for the student."""
    most = TITLE if roomy or large else CROWDED_TITLE
    harp, more = facts_lines(sheet)
    sign = feel_width(sheet.feel_sign) + 2.0 if sheet.feel_sign else 0.0
    facts = max(width(harp, HARP), width(more, MORE) + sign) + 1.0
    say = sheet.says[0] if roomy and sheet.says and not large else ""
    if say and line_count(say, SAY, room) > 1:
        say = ""
    beside = room - facts - BESIDE
    size = most
    while size >= 18.0 and width(sheet.title, Font("bold", size)) > beside * SLACK:
        size -= 1.0
    if size >= 18.0:
        title = max(Font("bold", size).mm * LEADING, HARP_ROW + MORE_ROW)
        return PageHead(size, beside, facts, False, say, title + (SAY_ROW if say else 0.0) + BELOW)
    size, lines = _broken(sheet.title, min(most, 22.0), room)
    high = lines * Font("bold", size).mm * LEADING
    both = line_count(harp, HARP, room) * HARP_ROW + line_count(more, MORE, room - sign) * MORE_ROW
    return PageHead(size, room, room, True, say, high + both + (SAY_ROW if say else 0) + BELOW)


def _broken(title: str, most: float, room: float) -> tuple[float, int]:
    """The size (pt) of a long title over the whole width, and its lines."""
    size = most
    while True:
        font = Font("bold", size)
        lines = line_count(title, font, room)
        longest = max((width(word, font) for word in title.split()), default=0.0)
        if (lines <= TITLE_LINES and longest <= room * SLACK) or size <= LEAST_TITLE:
            return size, lines
        size -= 1.0


def facts_lines(sheet: Sheet) -> tuple[str, str]:
    """Harp, position and key; form, tempo and feel."""
    return " · ".join(sheet.harp_facts), " · ".join(sheet.tune_facts)


def paragraphs_height(texts: Sequence[str], room: float, font: Font = SAY) -> float:
    """The height of paragraphs in a width of `room`."""
    return sum(SAY_ROW * line_count(text, font, room) for text in texts)
