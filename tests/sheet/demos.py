"""The sheets of the demo lessons, drawn up and printed once."""

from __future__ import annotations

from functools import cache

from formsheet.sheet.make_view import make_view
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import Sheet
from tests.lessons import demo


@cache
def sheet(name: str) -> Sheet:
    """The sheet of a demo lesson."""
    examined = demo(name)
    assert examined.tune
    return make_view(examined.tune, examined.fits, examined.name)


@cache
def printed(name: str) -> bytes:
    """The same as PDF."""
    return sheet_pdf(sheet(name))
