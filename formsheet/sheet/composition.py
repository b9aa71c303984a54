"""The values for the sheet's template: sizes chosen and everything drawn, page by page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.sheet.draw.feel import feel_sign
from formsheet.sheet.draw.front import LARGE, NORMAL, FrontLayout, FrontPage
from formsheet.sheet.draw.legend import Legend, legend
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.page_head import facts_lines, page_head
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.draw.words import fitted
from formsheet.sheet.study import study
from formsheet.sheet.view import Sheet

GOES_ON = 62.0  # mm beside the legend: which pages belong side by side
FOOT = Font("regular", 9.0)  # as in sheet.css
FOOT_ROOM = 0.86  # of a page's width: the rest is that of the page's number
GOES_ON_ROW = 6.0  # mm at the foot of the other pages of the tune
ABOVE_LEGEND = 1.2  # mm between the lowest ink of the bars and the legend


def composed(sheet: Sheet, paper: Paper, look: Look, *, large: bool = False) -> dict[str, Any]:
    """The values for all parts of a sheet on its paper."""
    heads = {
        roomy: page_head(sheet, paper.room, roomy=roomy, large=large) for roomy in (True, False)
    }
    several = sum(not chorus.places for chorus in sheet.choruses) > 1
    key = legend(sheet.key_entries, paper.room - (GOES_ON if several else 0.0), look)

    def available(first: bool, roomy: bool) -> float:
        if not first:
            return paper.depth - GOES_ON_ROW
        if large:
            return paper.depth - heads[roomy].height - GOES_ON_ROW
        return paper.depth - heads[roomy].height - key.height - ABOVE_LEGEND

    pages = FrontLayout(paper, look, large, available, LARGE if large else NORMAL).pages(
        sheet.choruses
    )
    roomy = not pages or pages[0].roomy
    harp, more = facts_lines(sheet)
    return {
        "sheet": sheet,
        "paper": paper,
        "foot_line": fitted(sheet.foot, FOOT, FOOT_ROOM * paper.room),
        "head": heads[roomy],
        "harp_facts": harp,
        "tune_facts": more,
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
        "legend": key,
        "legend_on": _legend_page(pages, key, paper, heads[roomy].height) if large else 0,
        "fronts": pages,
        **study(sheet, paper, look, large=large, said=heads[roomy].say),
    }


def _legend_page(pages: Sequence[FrontPage], key: Legend, paper: Paper, head: float) -> int | None:
    """The first page of the tune with room for the legend; None if there is none."""
    for page in pages:
        foot = max((y + line.height for line, y in page.lines), default=0.0)
        if foot + ABOVE_LEGEND + key.height <= paper.depth - (0.0 if page.number else head):
            return page.number
    return None
