"""The sheet set: from `view.Sheet` to HTML through the templates, and from there to PDF.

Nothing is fetched but what is made here: the drawings, the style sheet and our own faces.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from typing import Any

from formsheet.pack.draw.cards import draw_card, in_rows
from formsheet.pack.draw.chorus_title import set_title
from formsheet.pack.draw.feel import feel_sign
from formsheet.pack.draw.form import NARROW
from formsheet.pack.draw.harp import harp_map
from formsheet.pack.draw.holes import Look
from formsheet.pack.draw.key import join_sign, key_columns, key_height, key_sign
from formsheet.pack.draw.log import log_columns, log_height
from formsheet.pack.draw.masthead import FOOTER_SHARES, footer_size, masthead, paragraphs_height
from formsheet.pack.draw.pages import leaves_room, place_choruses
from formsheet.pack.draw.paper import Paper, paper_for
from formsheet.pack.options import MarkStyle, PageSize
from formsheet.pack.templating import environment
from formsheet.pack.view import Sheet

HOME = "formsheet:/"  # the scheme of our own files; no other is served
LEAST_SIZE = 13.0  # pt: of numbers in large print (before it is enlarged) and beside other marks
KEY_SIGN = 30.0  # mm of an entry of the key that its sign and the gap after its words take
IDENTIFIER = b"formsheet"  # a fixed one: the same sheet gives the same bytes


@dataclass(slots=True)
class Files:
    """The files that a page may fetch, by name."""

    content: dict[str, bytes] = field(default_factory=dict)
    _names: dict[str, str] = field(default_factory=dict)

    def add_svg(self, svg: str) -> str:
        """Keep a drawing; gives its address. The same drawing is kept once."""
        name = self._names.setdefault(svg, f"drawing-{len(self._names)}.svg")
        self.content[name] = svg.encode()
        return HOME + name


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
    sheet: Sheet, page: _Page, home: str = HOME, *, screen: bool = False, linked: bool = True
) -> tuple[str, Files]:
    """The page as HTML, and the files it fetches; for a screen it carries its drawings.

    `linked`: it names its style sheet.
    """
    paper, look = page.paper, page.look
    files = Files()
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
        "picture": files.add_svg,
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
        "harp_map": harp_map(sheet.harp_map) if sheet.harp_map else None,
        "key": [
            (key_sign(entry.sign, look.marks, entry.text), entry) for entry in sheet.key_entries
        ],
        "key_words": 0.99 * paper.room / key_columns(paper.room) - KEY_SIGN,
        "key_columns": key_columns(paper.room),
        "join_sign": partial(join_sign, marks=look.marks),
        "narrow": paper.room < NARROW,
        "road_across": max((len(line) for line in sheet.form_rows), default=4),
        "columns": log_columns(paper.room, sheet.ladder),
        "log_flows": log_height(sheet, paper.room, look.marks) > paper.depth,
        "home": home,
        "linked": linked,
        "enlarged": page.enlarged if screen else 0,
    }
    html = environment().get_template("sheet.html").render(context)
    return html, files


def sheet_html(
    sheet: Sheet,
    *,
    page_size: PageSize = "A4",
    marks: MarkStyle = "breath-line",
    large: bool = False,
) -> str:
    """The sheet as HTML for print; its drawings are named, not carried."""
    return _compose(sheet, _page(page_size, marks, large))[0]


def screen_html(
    sheet: Sheet,
    *,
    home: str,
    page_size: PageSize = "A4",
    marks: MarkStyle = "breath-line",
    large: bool = False,
) -> str:
    """The sheet as HTML for a screen; it carries its drawings, its other files are at `home`."""
    return _compose(sheet, _page(page_size, marks, large), home, screen=True)[0]


def sheet_pdf(
    sheet: Sheet,
    *,
    page_size: PageSize = "A4",
    marks: MarkStyle = "breath-line",
    large: bool = False,
) -> bytes:
    """The sheet as a tagged PDF; the same sheet gives the same bytes."""
    from formsheet.pack.fetcher import OwnFiles
    from formsheet.pack.setter import HTML  # slow to load: not before a page is wanted
    from formsheet.pack.style import shared_style

    page = _page(page_size, marks, large)
    html, files = _compose(sheet, page, linked=False)
    style, fonts = shared_style(HOME)
    own = {HOME + name: data for name, data in files.content.items()}
    document = HTML(string=html, base_url=HOME, url_fetcher=OwnFiles(own))
    pdf: bytes = document.write_pdf(
        zoom=page.enlarged, stylesheets=[style], font_config=fonts,
        pdf_variant="pdf/ua-1", pdf_identifier=IDENTIFIER,
    )  # fmt: skip
    return pdf
