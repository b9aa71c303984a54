"""The sheet set: from `view.Sheet` to HTML through the templates, and from there to PDF.

Nothing is fetched but what is made here: the drawings, the style sheet and our own faces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from ..resources import resource, resource_folder
from .draw.cards import draw_card, in_rows
from .draw.feel import feel_sign
from .draw.form import LEAST_GAP, DrawnChorus, draw_chorus
from .draw.harp import harp_map
from .draw.key import join_sign, key_sign
from .draw.lines import last_tab
from .draw.masthead import FOOTER_SHARES, footer_size, masthead, paragraphs_height
from .draw.metrics import FACE_FILES, FONTS
from .draw.paper import PAPERS, Paper
from .draw.words import accidentals
from .view import Sheet

if TYPE_CHECKING:
    from jinja2 import Environment

PageSize = Literal["A4", "Letter", "A4 portrait", "Letter portrait"]

HOME = "formsheet:/"  # the scheme of our own files; no other is served
HEAD_SPACE = 1.5  # mm kept free under the last line of page 1
CHORUS_TITLE = 7.5  # mm that the title of a chorus takes
BETWEEN_CHORUSES = 6.0  # mm between two choruses on one page
LEAST_STUDY = 60.0  # mm of a page that are worth beginning the study matter in
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


def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(resource_folder("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["accidentals"] = accidentals
    return environment


@dataclass(frozen=True, slots=True)
class _Placed:
    """A chorus and where it stands."""

    chorus: DrawnChorus
    new_page: bool
    left: float  # mm of the page below it


def _place_choruses(sheet: Sheet, paper: Paper, first_depth: float) -> list[_Placed]:
    """The choruses one below the other; each begins a page unless it fits whole on the last."""
    placed: list[_Placed] = []
    before = None
    for chorus in sheet.choruses:
        titled = CHORUS_TITLE if chorus.title or chorus.note else 0.0
        left = placed[-1].left - BETWEEN_CHORUSES if placed else first_depth
        drawn = draw_chorus(chorus, paper.room, left - titled, paper.depth, before)
        new_page = bool(placed) and len(drawn.pages) > 1
        if new_page:
            left = paper.depth
            drawn = draw_chorus(chorus, paper.room, left - titled, paper.depth, before)
        if len(drawn.pages) > 1:
            left, titled = paper.depth, 0.0
        placed.append(_Placed(drawn, new_page, left - titled - drawn.last_depth))
        before = last_tab([bar for line in chorus.lines for bar in line], before)
    return placed


def _compose(sheet: Sheet, page_size: PageSize) -> tuple[str, Files]:
    """The page as HTML, and the files it fetches."""
    paper = PAPERS[page_size]
    files = Files()
    head = masthead(sheet, paper.room)
    says_height = paragraphs_height(sheet.says, paper.room) + 3.0
    first_depth = paper.depth - head.height - HEAD_SPACE
    choruses = _place_choruses(sheet, paper, first_depth)
    titled = CHORUS_TITLE if sheet.choruses and _titled(choruses[0].chorus) else 0.0
    says_first = bool(sheet.says) and _spare(choruses, first_depth - titled) >= says_height
    if says_first:
        choruses = _place_choruses(sheet, paper, first_depth - says_height)
    context: dict[str, Any] = {
        "sheet": sheet,
        "paper": paper,
        "head": head,
        "footer_size": footer_size(sheet, paper.room),
        "footer_shares": FOOTER_SHARES,
        "choruses": choruses,
        "study_follows": bool(choruses) and choruses[-1].left >= LEAST_STUDY,
        "says_first": says_first,
        "card_rows": in_rows([draw_card(card, paper.room) for card in sheet.cards]),
        "picture": files.add_svg,
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
        "harp_map": harp_map(sheet.harp_map) if sheet.harp_map else None,
        "key": [(key_sign(entry.sign), entry) for entry in sheet.key_entries],
        "join_sign": join_sign,
        "home": HOME,
    }
    html = _environment().get_template("sheet.html").render(context)
    return html, files


def _spare(choruses: Sequence[_Placed], depth: float) -> float:
    """Height (mm) that page 1 has left between its lines, for other use."""
    if not choruses:
        return depth
    lines = choruses[0].chorus.pages[0]
    return depth - sum(line.height + LEAST_GAP for line in lines)


def _titled(chorus: DrawnChorus) -> bool:
    return bool(chorus.title or chorus.note)


def sheet_html(sheet: Sheet, *, page_size: PageSize = "A4") -> str:
    """The sheet as HTML for print; its drawings are named, not carried."""
    return _compose(sheet, page_size)[0]


@cache
def _fixed_files() -> dict[str, bytes]:
    """The style sheet and the faces, which all sheets share."""
    fonts = {name: (FONTS / name).read_bytes() for name in FACE_FILES.values()}
    return fonts | {"sheet.css": resource("templates", "sheet.css").read_bytes()}


def sheet_pdf(sheet: Sheet, *, page_size: PageSize = "A4") -> bytes:
    """The sheet as a tagged PDF; the same sheet gives the same bytes."""
    from weasyprint import HTML  # takes half a second: not before a page is wanted

    from .fetcher import OwnFiles

    html, files = _compose(sheet, page_size)
    own = {HOME + name: data for name, data in (_fixed_files() | files.content).items()}
    document = HTML(string=html, base_url=HOME, url_fetcher=OwnFiles(own))
    pdf: bytes = document.write_pdf(pdf_variant="pdf/ua-1", pdf_identifier=IDENTIFIER)
    return pdf
