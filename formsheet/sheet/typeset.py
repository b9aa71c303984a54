"""The sheet: from `view.Sheet` to HTML through the template, then to PDF."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

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


def _filling(sheet: Sheet, options: Options) -> dict[str, Any]:
    paper = PAPERS[options.page_size]
    return composed(sheet, paper, look_of(options), large=options.large)


def _html(
    filling: dict[str, Any], drawings: Drawings | None, home: str = HOME, *, linked: bool = True
) -> str:
    """The page as HTML; drawings are added to `drawings`, or are inline without it.

    `linked`: it links to its style sheet.
    """
    whole = filling | {
        "drawings": drawings,
        "home": home,
        "linked": linked,
        "on_screen": drawings is None,
    }
    return environment().get_template("sheet.html").render(whole)


def sheet_html(
    sheet: Sheet, drawings: Drawings, options: Options = AS_USUAL, *, linked: bool = True
) -> str:
    """The sheet as HTML for print; drawings are added to `drawings`.

    `linked`: it links to its style sheet.
    """
    return _html(_filling(sheet, options), drawings, linked=linked)


def screen_html(sheet: Sheet, options: Options = AS_USUAL, *, home: str) -> str:
    """The sheet as HTML for the screen, with inline drawings; other files are at `home`."""
    return _html(_filling(sheet, options), None, home)


@dataclass(frozen=True, slots=True)
class SetSheet:
    """A sheet as a tagged PDF, and whether a chorus runs over two of its pages."""

    pdf: bytes
    broken: bool


def set_sheet(sheet: Sheet, options: Options = AS_USUAL) -> SetSheet:
    """Set a sheet; equal sheets give equal bytes."""
    from formsheet.sheet.pdf.setting import set_pdf  # slow to import

    drawings = Drawings()
    filling = _filling(sheet, options)
    html = _html(filling, drawings, linked=False)
    broken = any(page.broken for page in filling["fronts"])
    return SetSheet(set_pdf(html, drawings, HOME), broken)


def sheet_pdf(sheet: Sheet, options: Options = AS_USUAL) -> bytes:
    """The sheet as a tagged PDF."""
    return set_sheet(sheet, options).pdf
