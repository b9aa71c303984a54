"""The sheet for the screen, while the lesson is being written: the same drawings, no PDF."""

from __future__ import annotations

from formsheet.pack.draw.typeface import face_files
from formsheet.pack.options import Options
from formsheet.pack.typeset import HOME, screen_html
from formsheet.pack.view import Sheet
from formsheet.resources import resource

#: Where the page finds its files, from the folder in which it is shown.
OWN = "../own/"


def preview_html(sheet: Sheet, options: Options) -> str:
    """The sheet as one page that carries its drawings, and finds faces and styles at `OWN`."""
    return screen_html(
        sheet, page_size=options.page_size, marks=options.marks, large=options.large, home=OWN
    )


def preview_files() -> dict[str, bytes]:
    """The faces and styles of all such pages, by the name below `OWN`; they lie side by side."""
    printed = resource("templates", "sheet.css").read_text(encoding="utf-8")
    screen = resource("templates", "screen.css").read_text(encoding="utf-8")
    style = printed.replace(HOME, "") + screen
    return face_files() | {"sheet.css": style.encode()}
