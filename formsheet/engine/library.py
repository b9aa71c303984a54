"""The page that leads to all handouts of a folder."""

from __future__ import annotations

from pathlib import Path

from formsheet.pack.library import is_library, library_of
from formsheet.pack.parts import LIBRARY
from formsheet.whole import write_whole


def renew_library(out: Path) -> Path | None:
    """List all lessons that have a page below `out`; None where there is none.

    A list of lessons that are all gone is removed.
    """
    page = library_of(out)
    if page is not None:
        return write_whole(out / LIBRARY, page)
    if is_library(out / LIBRARY):
        (out / LIBRARY).unlink()
    return None
