"""The files of a part of the pack."""

from __future__ import annotations

from formsheet.engine.parts import PARTS, Notice, Piece
from formsheet.sheet.options import Options
from formsheet.stages import Examined


def part_files(part: str, found: Examined, options: Options | None = None) -> dict[str, bytes]:
    """Names and contents of a part's files, without notices."""
    made = PARTS[part](found, options or Options())
    return dict(
        (each.name, each.make()) if isinstance(each, Piece) else each
        for each in made
        if not isinstance(each, Notice)
    )
