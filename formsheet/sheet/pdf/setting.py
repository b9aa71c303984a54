"""Typeset a page with WeasyPrint: from HTML and drawings to a tagged PDF.

Only files made here can be loaded: the drawings, the style sheet and the sheet's typefaces.
"""

from __future__ import annotations

from formsheet.sheet.fetcher import OwnFiles
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.setter import HTML
from formsheet.sheet.style import shared_style

IDENTIFIER = b"formsheet"  # fixed, so that equal sheets give equal bytes


def set_pdf(html: str, drawings: Drawings, home: str, enlarged: float = 1.0) -> bytes:
    """The PDF of a page with addresses below `home`; equal pages give equal bytes."""
    style, fonts = shared_style(home)
    own = {home + name: data for name, data in drawings.files.items()}
    pdf: bytes = HTML(string=html, base_url=home, url_fetcher=OwnFiles(own)).write_pdf(
        zoom=enlarged, finisher=drawings.finish, stylesheets=[style], font_config=fonts,
        pdf_variant="pdf/ua-1", pdf_identifier=IDENTIFIER,
    )  # fmt: skip
    return pdf
