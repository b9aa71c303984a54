"""The sheet: from `view.Sheet` to HTML through the template, then to PDF."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.sheet.composition import composed
from formsheet.sheet.draw.holes import Look
from formsheet.sheet.draw.paper import Paper, paper_for
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle
from formsheet.sheet.options import PageSize
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.templating import environment
from formsheet.sheet.view import Sheet

HOME = "formsheet:/"  # the scheme of the sheet's files; no other is served
LEAST_SIZE = 13.0  # pt: of numbers in large print (before enlargement) and with other mark styles


@dataclass(frozen=True, slots=True)
class _Page:
    """The paper of a sheet and the look of its bars."""

    paper: Paper
    look: Look
    enlarged: float


def _page(page_size: PageSize, marks: MarkStyle, large: bool) -> _Page:
    paper, enlarged = paper_for(page_size, large=large)
    small = not large and marks.path
    return _Page(paper, Look(marks) if small else Look(marks, LEAST_SIZE), enlarged)


def _html(
    sheet: Sheet,
    page: _Page,
    drawings: Drawings | None,
    home: str = HOME,
    *,
    linked: bool = True,
) -> str:
    """The page as HTML; drawings are added to `drawings`, or are inline without it.

    `linked`: it links to its style sheet.
    """
    filling = composed(sheet, page.paper, page.look) | {
        "drawings": drawings,
        "home": home,
        "linked": linked,
        "enlarged": page.enlarged if drawings is None else 0,
    }
    return environment().get_template("sheet.html").render(filling)


def sheet_html(
    sheet: Sheet,
    drawings: Drawings,
    *,
    page_size: PageSize = "A4",
    marks: MarkStyle = BREATH_LINE,
    large: bool = False,
    linked: bool = True,
) -> str:
    """The sheet as HTML for print; drawings are added to `drawings`.

    `linked`: it links to its style sheet.
    """
    return _html(sheet, _page(page_size, marks, large), drawings, linked=linked)


def screen_html(
    sheet: Sheet,
    *,
    home: str,
    page_size: PageSize = "A4",
    marks: MarkStyle = BREATH_LINE,
    large: bool = False,
) -> str:
    """The sheet as HTML for the screen, with inline drawings; other files are at `home`."""
    return _html(sheet, _page(page_size, marks, large), None, home)


def sheet_pdf(
    sheet: Sheet,
    *,
    page_size: PageSize = "A4",
    marks: MarkStyle = BREATH_LINE,
    large: bool = False,
) -> bytes:
    """The sheet as a tagged PDF; equal sheets give equal bytes."""
    from formsheet.sheet.pdf.setting import set_pdf  # slow to import

    page, drawings = _page(page_size, marks, large), Drawings()
    html = _html(sheet, page, drawings, linked=False)
    return set_pdf(html, drawings, HOME, page.enlarged)
