"""The values for the sheet's template: sizes chosen and everything drawn, page by page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from formsheet.sheet.draw.feel import feel_sign
from formsheet.sheet.draw.front import LARGE, NORMAL, FrontLayout, FrontPage, Title
from formsheet.sheet.draw.legend import Legend, legend
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import facts_lines, page_head
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.draw.words import fitted
from formsheet.sheet.study import study
from formsheet.sheet.view import Sheet

FOOT = Font("regular", 9.0)  # as in sheet.css
FOOT_ROOM = 0.86  # of a page's width: the rest is that of the page's number
GOES_ON_ROW = 6.0  # mm at the foot of the first page: where the tune goes on
CHORUS_TITLE = Font("bold", 13)  # as in sheet.css, and these
NOTE = Font("regular", 11)
LOOSE = Font("regular", 10)  # title and harp at the head of later pages
HALF = 0.47  # of the width: the title of a chorus, and title and harp beside it
ABOVE_LEGEND = 1.2  # mm between the lowest ink of the bars and the legend


def composed(sheet: Sheet, paper: Paper, look: Look, *, large: bool = False) -> dict[str, Any]:
    """The values for all parts of a sheet on its paper."""
    heads = {
        roomy: page_head(sheet, paper.room, roomy=roomy, large=large) for roomy in (True, False)
    }
    key = legend(sheet.key_entries, paper.room, look)

    def pages_above(strip: float) -> list[FrontPage]:
        """The pages of the tune with a strip (mm) at the foot of the first."""

        def available(first: bool, roomy: bool) -> float:
            if not first:
                return paper.depth
            below = 0.0 if large else key.height + ABOVE_LEGEND
            return paper.depth - heads[roomy].height - below - strip

        tries = LARGE if large else NORMAL
        return FrontLayout(paper, look, large, available, tries).pages(sheet.choruses)

    pages = pages_above(0.0)
    if len(pages) > 1:
        pages = pages_above(GOES_ON_ROW)
    pages = [_titled(page, sheet.title, paper.room) for page in pages]
    roomy = not pages or pages[0].roomy
    harp, more = facts_lines(sheet)
    return {
        "sheet": sheet,
        "paper": paper,
        "foot_line": fitted(sheet.foot, FOOT, FOOT_ROOM * paper.room),
        "head": heads[roomy],
        "harp_facts": harp,
        "loose": fitted(f"{sheet.title} · {harp}", LOOSE, HALF * paper.room),
        "tune_facts": more,
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
        "legend": key,
        "legend_on": _legend_page(pages, key, paper, heads[roomy].height) if large else 0,
        "fronts": pages,
        **study(sheet, paper, look, large=large, said=heads[roomy].say),
    }


def _titled(page: FrontPage, tune: str, room: float) -> FrontPage:
    """A page whose titles fit beside what else stands in their row; without one, the tune's."""
    left = room * (HALF if page.number else 1.0)

    def short(title: Title) -> Title:
        note = fitted(title.note, NOTE, left / 2)
        words = fitted(title.words or tune, CHORUS_TITLE, left - width(note, NOTE) - 4.0)
        return replace(title, words=words, note=note)

    return replace(page, titles=tuple(map(short, page.titles)))


def _legend_page(pages: Sequence[FrontPage], key: Legend, paper: Paper, head: float) -> int | None:
    """The first page of the tune with room for the legend; None if there is none."""
    for page in pages:
        foot = max((y + line.height for line, y in page.lines), default=0.0)
        if foot + ABOVE_LEGEND + key.height <= paper.depth - (
            0.0 if page.number else head + GOES_ON_ROW
        ):
            return page.number
    return None
