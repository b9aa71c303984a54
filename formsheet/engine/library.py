"""The page that leads to all handouts of a folder."""

from __future__ import annotations

from pathlib import Path

from formsheet.engine.place import write_whole
from formsheet.pack.library import library_of
from formsheet.pack.parts import LIBRARY


def renew_library(out: Path) -> Path | None:
    """List all lessons that have a page below `out`; None where there is none."""
    page = library_of(out)
    if page is None:
        return None
    write_whole(out / LIBRARY, page)
    return out / LIBRARY
