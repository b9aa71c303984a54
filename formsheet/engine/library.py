"""Write the page that lists all handouts of a folder."""

from __future__ import annotations

from pathlib import Path

from formsheet.engine.parts import LIBRARY
from formsheet.page.library import is_library, library_of
from formsheet.whole import write_whole


def renew_library(out: Path) -> Path | None:
    """Write the list of all lessons that have a page below `out`; None if none was written.

    A list without any lesson left is removed. A file of that name that formsheet did not make is
    left alone, and no list is written.
    """
    place = out / LIBRARY
    ours = is_library(place)
    page = library_of(out)
    if page is not None and (ours or not place.exists()):
        return write_whole(place, page)
    if page is None and ours:
        place.unlink()
    return None
