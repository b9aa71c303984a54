"""Drawings written into the PDF by us look as those that WeasyPrint draws from SVG."""

from __future__ import annotations

import io
from pathlib import Path
from subprocess import run

import numpy as np
import pikepdf
import pytest
from PIL import Image, ImageFilter

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.typeface import typeface
from formsheet.sheet.pdf.content import content
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.pdf.fonts import NAMES as FONT_NAMES
from formsheet.sheet.pdf.setting import set_pdf
from formsheet.sheet.typeset import HOME, sheet_html
from formsheet.sheet.view import Sheet
from tests.lessons import NAMES
from tests.sheet.demos import printed, sheet
from tests.sheet.gallery import GALLERY

DPI = 100
DARK, LIGHT = 100, 155  # of 255
MOST = 3  # pixels: a thin stroke may fall on another pixel


def pages_of(pdf: bytes, folder: Path) -> list[Image.Image]:
    """The pages in grey."""
    folder.mkdir()
    (folder / "sheet.pdf").write_bytes(pdf)
    command = ["pdftoppm", "-r", str(DPI), "-gray", "-png", "sheet.pdf", "page"]
    run(command, cwd=folder, check=True)
    return [Image.open(path).convert("L") for path in sorted(folder.glob("*.png"))]


def difference(one: Image.Image, other: Image.Image) -> int:
    """Pixels of ink with nothing near them on the other page."""
    assert one.size == other.size
    return _lacking(one, other) + _lacking(other, one)


def _lacking(one: Image.Image, other: Image.Image) -> int:
    near = np.asarray(other.filter(ImageFilter.MinFilter(3)))
    return int(((np.asarray(one) < DARK) & (near > LIGHT)).sum())


def both(view: Sheet, folder: Path) -> list[tuple[Image.Image, Image.Image]]:
    """The pages with our drawings, and with the setter's."""
    found = []
    for as_svg in (False, True):
        drawings = Drawings(as_svg=as_svg)
        html = sheet_html(view, drawings, linked=False)
        found.append(pages_of(set_pdf(html, drawings, HOME), folder / str(as_svg)))
    return list(zip(*found, strict=True))


@pytest.mark.parametrize("name", [*NAMES, *GALLERY])
def test_both_ways_of_drawing_look_alike(name: str, tmp_path: Path) -> None:
    view = sheet(name) if name in NAMES else GALLERY[name]()
    for ours, theirs in both(view, tmp_path):
        assert difference(ours, theirs) <= MOST


def test_a_number_that_lacks_would_be_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def lacking(canvas: Canvas) -> object:
        for drawn in canvas.runs:
            if drawn.font.size > 13 and len(drawn.words) > 1:
                drawn.words.pop()
                break
        return content(canvas)

    monkeypatch.setattr("formsheet.sheet.pdf.content.content", lacking)
    pages = both(sheet("back-step-shuffle"), tmp_path)
    assert max(difference(*page) for page in pages) > MOST


def test_each_face_is_in_the_file_with_the_widths_that_it_has() -> None:
    faces = {name: face for face, name in FONT_NAMES.items()}
    with pikepdf.open(io.BytesIO(printed("back-step-shuffle"))) as document:
        ours = [
            found
            for found in document.objects
            if isinstance(found, pikepdf.Dictionary)
            and found.get("/Subtype") == "/CIDFontType2"
            and str(found.BaseFont).startswith("/Lesson-")
        ]
        assert {str(font.BaseFont) for font in ours} >= {"/Lesson-Sans", "/Lesson-Sans-Bold"}
        for font in ours:
            each = typeface(faces[str(font.BaseFont).lstrip("/")])
            assert font.FontDescriptor.FontFile2.read_bytes() == each.file
            told = list(font.W)
            for glyph, widths in zip(told[::2], told[1::2], strict=True):
                name = each.font.getGlyphName(int(glyph))
                wide = 1000 * each.font["hmtx"][name][0] / each.em
                assert float(widths[0]) == pytest.approx(wide, abs=0.01)


def test_the_same_drawing_is_kept_once() -> None:
    drawings = Drawings()
    names = []
    for text in ("4", "4", "5"):
        canvas = Canvas(10, 10)
        canvas.text(1, 5, text, Font("bold", 12))
        names.append(drawings.add(canvas))
    assert (names[0] == names[1], names[1] == names[2]) == (True, False)
    assert len(drawings.files) == 2


def test_a_drawing_with_a_text_to_be_shaped_is_left_to_the_setter() -> None:
    canvas = Canvas(20, 10)
    canvas.text(1, 5, "רחוב", Font("regular", 10))
    drawings = Drawings()
    assert "רחוב" in drawings.files[drawings.add(canvas)].decode()
    assert drawings.add(canvas, whole=False).endswith(".jpg")  # the page sets it over


def test_an_apostrophe_is_the_tick_of_a_bend() -> None:
    canvas = Canvas(20, 10)
    canvas.text(1, 5, "3'", Font("regular", 10))
    assert content(canvas).used == {"regular": {"3"}, "signs": {"'"}}
