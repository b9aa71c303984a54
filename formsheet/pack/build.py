"""The handout pack of one lesson, written file by file, each whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

from formsheet.pack.make_view import make_view
from formsheet.pack.typeset import PageSize, sheet_pdf
from formsheet.stages import Examined


def build_pack(examined: Examined, folder: Path, *, page_size: PageSize = "A4") -> Iterator[Path]:
    """Make the files of a lesson's pack in `folder`; yields each path once it is written."""
    assert examined.tune
    sheet = make_view(examined.tune, examined.fits, Path(examined.name).name)
    pdf = sheet_pdf(sheet, page_size=page_size)
    yield _write(folder / "sheet.pdf", pdf)


def _write(path: Path, data: bytes) -> Path:
    """Write a file aside and put it in place whole."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(aside, 0o644)
        os.replace(aside, path)
    except BaseException:
        os.unlink(aside)
        raise
    return path
