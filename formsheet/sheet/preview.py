"""The sheet for the screen while the lesson is written: the same drawings, without a PDF."""

from __future__ import annotations

from formsheet.resources import resource
from formsheet.sheet.draw.typeface import face_files
from formsheet.sheet.options import Options
from formsheet.sheet.typeset import HOME, screen_html
from formsheet.sheet.view import Sheet

#: Relative address of the files that all such pages share.
OWN = "../own/"


def preview_html(sheet: Sheet, options: Options) -> str:
    """The sheet as one page with its drawings inside; faces and styles are at `OWN`."""
    return screen_html(
        sheet, page_size=options.page_size, marks=options.marks, large=options.large, home=OWN
    )


def preview_files() -> dict[str, bytes]:
    """The faces and styles of all such pages, by name below `OWN`, in one folder."""
    printed = resource("templates", "sheet.css").read_text(encoding="utf-8")
    screen = resource("templates", "screen.css").read_text(encoding="utf-8")
    style = printed.replace(HOME, "") + screen
    return face_files() | {"sheet.css": style.encode()}
