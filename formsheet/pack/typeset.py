"""The sheet: from `view.Sheet` to HTML through the template, and from there to PDF."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Any

from formsheet.pack.draw.boxes import box_heads, tick_boxes
from formsheet.pack.draw.cards import draw_card, in_rows
from formsheet.pack.draw.chorus_title import set_title
from formsheet.pack.draw.feel import feel_sign
from formsheet.pack.draw.form import NARROW
from formsheet.pack.draw.form_table import form_table, form_words
from formsheet.pack.draw.harp import harp_map
from formsheet.pack.draw.holes import Look
from formsheet.pack.draw.key import WIDTH, join_sign, key_columns, key_height, key_sign
from formsheet.pack.draw.log import PICTURE, log_columns, log_height, row_height
from formsheet.pack.draw.masthead import FOOTER_SHARES, footer_size, masthead, paragraphs_height
from formsheet.pack.draw.pages import leaves_room, place_choruses
from formsheet.pack.draw.paper import Paper, paper_for
from formsheet.pack.options import MarkStyle, PageSize
from formsheet.pack.pdf.drawings import Drawings
from formsheet.pack.templating import environment
from formsheet.pack.view import Sheet

HOME = "formsheet:/"  # the scheme of our own files; no other is served
LEAST_SIZE = 13.0  # pt: of numbers in large print (before it is enlarged) and beside other marks
BESIDE_GAP = 9.0  # mm between the harp and its chords: margin, space, a little to spare
KEY_SIGN = 30.0  # mm of an entry of the key that its sign and the gap after its words take


@dataclass(frozen=True, slots=True)
class _Page:
    """The paper that a sheet is drawn on and the look of its bars."""

    paper: Paper
    look: Look
    enlarged: float


def _page(page_size: PageSize, marks: MarkStyle, large: bool) -> _Page:
    paper, enlarged = paper_for(page_size, large=large)
    small = not large and marks == "breath-line"
    return _Page(paper, Look(marks) if small else Look(marks, LEAST_SIZE), enlarged)


def _compose(
    sheet: Sheet,
    page: _Page,
    drawings: Drawings | None,
    home: str = HOME,
    *,
    linked: bool = True,
) -> str:
    """The page as HTML: `drawings` keeps those that it names; without, it carries them itself.

    `linked`: it names its style sheet.
    """
    paper, look = page.paper, page.look
    head = masthead(sheet, paper.room)
    says_height = paragraphs_height(sheet.says, paper.room) + 3.0
    first_depth = paper.depth - head.height
    says_first = bool(sheet.says) and (
        not sheet.choruses
        or leaves_room(sheet.choruses[0], paper.room, first_depth, says_height, look)
    )
    if says_first:
        first_depth -= says_height
    key = key_height(len(sheet.key_entries), paper.room)
    choruses = place_choruses(sheet.choruses, paper.room, first_depth, paper.depth, key, look)
    columns = log_columns(paper.room, sheet.ladder)
    context: dict[str, Any] = {
        "sheet": sheet,
        "paper": paper,
        "head": head,
        "footer_size": footer_size(sheet, paper.room),
        "footer_shares": FOOTER_SHARES,
        "choruses": choruses,
        "set_title": set_title,
        "study_follows": bool(choruses) and choruses[-1].left >= key,
        "says_first": says_first,
        "card_rows": in_rows([draw_card(card, paper.room, look) for card in sheet.cards]),
        "drawings": drawings,
        "form_table": form_table(head.form_rows, head.form_cell, head.form_size)
        if head.form_rows
        else None,
        "form_words": form_words(head.form_rows),
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
        "harp_map": harp_map(sheet.harp_map) if sheet.harp_map else None,
        "key": [
            (key_sign(entry.sign, look.marks, entry.text), entry) for entry in sheet.key_entries
        ],
        "key_words": 0.99 * paper.room / key_columns(paper.room) - KEY_SIGN,
        "key_columns": key_columns(paper.room),
        "join_sign": partial(join_sign, marks=look.marks),
        "sign_shown": PICTURE / WIDTH,
        "beside_gap": BESIDE_GAP,
        "narrow": paper.room < NARROW,
        "road_across": max((len(line) for line in sheet.form_rows), default=4),
        "columns": columns,
        "box_heads": box_heads(columns),
        "tick_boxes": lambda row, first: tick_boxes(
            columns, row_height(row, columns, look.marks), first=first
        ),
        "log_flows": log_height(sheet, paper.room, look.marks) > paper.depth,
        "home": home,
        "linked": linked,
        "enlarged": page.enlarged if drawings is None else 0,
    }
    return environment().get_template("sheet.html").render(context)


def sheet_html(
    sheet: Sheet,
    drawings: Drawings,
    *,
    page_size: PageSize = "A4",
    marks: MarkStyle = "breath-line",
    large: bool = False,
    linked: bool = True,
) -> str:
    """The sheet as HTML for print: `drawings` keeps those that it names.

    `linked`: it names its style sheet.
    """
    return _compose(sheet, _page(page_size, marks, large), drawings, linked=linked)


def screen_html(
    sheet: Sheet,
    *,
    home: str,
    page_size: PageSize = "A4",
    marks: MarkStyle = "breath-line",
    large: bool = False,
) -> str:
    """The sheet as HTML for a screen; it carries its drawings, its other files are at `home`."""
    return _compose(sheet, _page(page_size, marks, large), None, home)


def sheet_pdf(
    sheet: Sheet,
    *,
    page_size: PageSize = "A4",
    marks: MarkStyle = "breath-line",
    large: bool = False,
) -> bytes:
    """The sheet as a tagged PDF; the same sheet gives the same bytes."""
    from formsheet.pack.pdf.setting import set_pdf  # slow to load: not before a page is wanted

    page, drawings = _page(page_size, marks, large), Drawings()
    html = _compose(sheet, page, drawings, linked=False)
    return set_pdf(html, drawings, HOME, page.enlarged)
