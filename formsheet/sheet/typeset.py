"""The sheet: from `view.Sheet` to HTML through the template, then to PDF."""

from __future__ import annotations

from formsheet.sheet.composition import composed
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.paper import PAPERS
from formsheet.sheet.options import AS_USUAL, Options
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.templating import environment
from formsheet.sheet.view import Sheet

HOME = "formsheet:/"  # the scheme of the sheet's files; no other is served


def look_of(options: Options) -> Look:
    """How boxes look with these options."""
    return Look(options.marks, options.light, *options.colours)


def _html(
    sheet: Sheet,
    options: Options,
    drawings: Drawings | None,
    home: str = HOME,
    *,
    linked: bool = True,
) -> str:
    """The page as HTML; drawings are added to `drawings`, or are inline without it.

    `linked`: it links to its style sheet.
    """
    paper = PAPERS[options.page_size]
    filling = composed(sheet, paper, look_of(options), large=options.large) | {
        "drawings": drawings,
        "home": home,
        "linked": linked,
        "on_screen": drawings is None,
    }
    return environment().get_template("sheet.html").render(filling)


def sheet_html(
    sheet: Sheet, drawings: Drawings, options: Options = AS_USUAL, *, linked: bool = True
) -> str:
    """The sheet as HTML for print; drawings are added to `drawings`.

    `linked`: it links to its style sheet.
    """
    return _html(sheet, options, drawings, linked=linked)


def screen_html(sheet: Sheet, options: Options = AS_USUAL, *, home: str) -> str:
    """The sheet as HTML for the screen, with inline drawings; other files are at `home`."""
    return _html(sheet, options, None, home)


def sheet_pdf(sheet: Sheet, options: Options = AS_USUAL) -> bytes:
    """The sheet as a tagged PDF; equal sheets give equal bytes."""
    from formsheet.sheet.pdf.setting import set_pdf  # slow to import

    drawings = Drawings()
    html = _html(sheet, options, drawings, linked=False)
    return set_pdf(html, drawings, HOME)
