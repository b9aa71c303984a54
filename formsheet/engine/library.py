"""The page that leads to all handouts of a folder."""

from __future__ import annotations

from pathlib import Path

from formsheet.pack.library import is_library, library_of
from formsheet.pack.parts import LIBRARY
from formsheet.whole import write_whole


def renew_library(out: Path) -> Path | None:
    """List all lessons that have a page below `out`; None where there is none.

    A list of lessons that are all gone is removed. A page of that name that is not of ours stays,
    and no list is written.
    """
    place = out / LIBRARY
    ours = is_library(place)
    page = library_of(out)
    if page is not None and (ours or not place.exists()):
        return write_whole(place, page)
    if page is None and ours:
        place.unlink()
    return None
