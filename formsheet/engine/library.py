"""The page that leads to all handouts of a folder."""

from __future__ import annotations

from pathlib import Path

from formsheet.pack.library import library_of
from formsheet.pack.parts import LIBRARY
from formsheet.whole import write_whole


def renew_library(out: Path) -> Path | None:
    """List all lessons that have a page below `out`; None where there is none."""
    page = library_of(out)
    return write_whole(out / LIBRARY, page) if page is not None else None
