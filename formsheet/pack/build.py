"""The handout pack of one lesson, written file by file, each whole or not at all."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path

from formsheet.pack.options import Options
from formsheet.pack.parts import PARTS
from formsheet.stages import Examined
from formsheet.whole import write_whole


def build_pack(
    examined: Examined, folder: Path, options: Options, only: Collection[str] = ()
) -> Iterator[Path]:
    """Make the files of a lesson's pack in `folder`; yields each path once it is written.

    `only` names the parts that are wanted; all of them where it is empty.
    """
    assert examined.tune
    for name, part in PARTS.items():
        if not only or name in only:
            for file_name, data in part(examined, options):
                yield write_whole(folder / file_name, data)


def write_library(out: Path) -> Path | None:
    """List all lessons that have a page below `out`; None where there is none."""
    from formsheet.pack.library import LIBRARY, library_of

    page = library_of(out)
    return write_whole(out / LIBRARY, page) if page else None
