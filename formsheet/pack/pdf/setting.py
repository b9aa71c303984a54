"""A page set by WeasyPrint: from HTML and drawings to a tagged PDF.

Nothing is fetched but what is made here: the drawings, the style sheet and our own faces.
"""

from __future__ import annotations

from formsheet.pack.fetcher import OwnFiles
from formsheet.pack.pdf.drawings import Drawings
from formsheet.pack.setter import HTML
from formsheet.pack.style import shared_style

IDENTIFIER = b"formsheet"  # a fixed one: the same sheet gives the same bytes


def set_pdf(html: str, drawings: Drawings, home: str, enlarged: float = 1.0) -> bytes:
    """The PDF of a page whose addresses are below `home`; the same page gives the same bytes."""
    style, fonts = shared_style(home)
    own = {home + name: data for name, data in drawings.files.items()}
    pdf: bytes = HTML(string=html, base_url=home, url_fetcher=OwnFiles(own)).write_pdf(
        zoom=enlarged, finisher=drawings.finish, stylesheets=[style], font_config=fonts,
        pdf_variant="pdf/ua-1", pdf_identifier=IDENTIFIER,
    )  # fmt: skip
    return pdf
