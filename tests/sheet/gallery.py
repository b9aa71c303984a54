"""Lessons with everything that is hard to print, and the settings in which sheets are made.

    python -m tests.sheet.gallery FOLDER

writes each as a PDF and as PNGs, to be looked at. The tunes are made up.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

from formsheet.sheet.make_view import make_view
from formsheet.sheet.mark_styles import MARK_STYLES
from formsheet.sheet.options import Options
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import Sheet
from tests.helpers import examined, lesson_text, own_form, told
from tests.sheet.gallery_texts import TEXTS


@cache
def gallery_sheet(name: str) -> Sheet:
    """The sheet of a lesson of the gallery."""
    return sheet_of(TEXTS[name], f"{name}.lesson")


def sheet_of(text: str, file_name: str = "test.lesson") -> Sheet:
    """The sheet of a lesson, which may have warnings."""
    found = examined(text)
    assert found.tune, told(found.problems)
    assert found.in_order, told(found.problems)
    return make_view(found.tune, found.fits, file_name)


def sheet_over(chords: str, music: str, **facts: str | None) -> Sheet:
    """The sheet of a lesson with one lick that fills a form of these chords."""
    last = chords.count("|") + 1
    body = f"lick run on {chords}\n  {music}\nplay\n  bars 1-{last} run"
    return sheet_of(lesson_text(body, form=own_form(chords), **facts))


#: Name -> what makes its sheet.
GALLERY: dict[str, Callable[[], Sheet]] = {name: partial(gallery_sheet, name) for name in TEXTS}

_STYLED = ("common", "dense", "blocks", "compound", "ties", "overbends")
_MARKED = {
    f"{style.name}-{name}": (name, Options(marks=style))
    for style in MARK_STYLES[1:]
    for name in _STYLED
}
COLOURS = ("#1a4fa0", "#9c2a14")  # a teacher's choice, for tests
#: Name -> a sheet of the gallery and the options with which it is made.
SETTINGS: dict[str, tuple[str, Options]] = {
    **_MARKED,
    **{f"light-{name}": (name, Options(light=True)) for name in _STYLED},
    **{f"coloured-{name}": (name, Options(colours=COLOURS)) for name in ("common", "ties")},
    "coloured-light": ("common", Options(colours=COLOURS, light=True)),
    **{
        f"large-{name}": (name, Options(large=True))
        for name in ("common", "eight", "last-bars", "compound", "dense", "pickup", "techniques")
    },
    "large-letters": ("common", Options(large=True, marks=MARK_STYLES[-1], light=True)),
    "large-upright": ("common", Options(large=True, page_size="A4 portrait")),
    **{
        f"upright-{name}": (name, Options(page_size="A4 portrait"))
        for name in ("common", "dense", "blocks", "compound", "pickup", "three-choruses")
    },
    "upright-letter": ("half-bars", Options(page_size="Letter portrait")),
    **{
        f"letter-{name}": (name, Options(page_size="Letter"))
        for name in ("common", "dense", "last-bars", "compound", "long-title", "sixteen")
    },
}


@cache
def setting_pdf(name: str) -> bytes:
    """The PDF of a setting."""
    sheet, options = SETTINGS[name]
    return sheet_pdf(gallery_sheet(sheet), options)


def main(folder: Path) -> None:
    """Write all sheets as PDF and PNG."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in TEXTS:
        _write(folder, name, sheet_pdf(gallery_sheet(name)))
    for name in SETTINGS:
        _write(folder, name, setting_pdf(name))


def _write(folder: Path, name: str, pdf: bytes) -> None:
    path = folder / f"{name}.pdf"
    path.write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", "100", "-png", path, folder / name], check=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
