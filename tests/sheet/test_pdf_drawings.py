"""Drawings written into the PDF by us look as those that WeasyPrint draws from SVG."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from PIL import Image

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.pdf.content import Content, content
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.pdf.setting import set_pdf
from formsheet.sheet.typeset import HOME, sheet_html
from formsheet.sheet.view import Sheet
from tests.lessons import NAMES
from tests.sheet.demos import sheet
from tests.sheet.gallery import GALLERY
from tests.sheet.pixels import pages_of, tint, unlike

UNLIKE = 3  # pixels of a page, own choice: sheets have none
TINT = 10  # of 255, own choice: sheets have 5, the faults below 28 and more

Pages = list[tuple[Image.Image, Image.Image]]


def both(make: Callable[[Drawings], str]) -> Pages:
    """The pages with our drawings, and with the setter's."""
    found = []
    for as_svg in (False, True):
        drawings = Drawings(as_svg=as_svg)
        found.append(pages_of(set_pdf(make(drawings), drawings, HOME)))
    return list(zip(*found, strict=True))


def alike(pages: Pages) -> bool:
    return all(unlike(*page) <= UNLIKE and tint(*page) <= TINT for page in pages)


def of_sheet(view: Sheet) -> Callable[[Drawings], str]:
    return lambda drawings: sheet_html(view, drawings, linked=False)


@pytest.mark.parametrize("name", [*NAMES, *GALLERY])
def test_both_ways_of_drawing_look_alike(name: str) -> None:
    pages = both(of_sheet(sheet(name) if name in NAMES else GALLERY[name]()))
    assert all(any(page.convert("L").histogram()[:50]) for pair in pages for page in pair)  # ink
    assert alike(pages)


# What the comparison sees, shown by a drawing that is no part of any sheet.

SIZE = (60, 40)  # mm
WORDS = {"regular": "Reed 4'", "bold": "Bold ♭7 é", "italic": "Lean gy"}


def sample() -> Canvas:
    """Strokes, areas and words of every kind."""
    canvas = Canvas(*SIZE)
    for row, (face, text) in enumerate(WORDS.items()):
        canvas.text(2, 8 + 8 * row, text, Font(face, 14))  # type: ignore[arg-type]
    canvas.text(32, 8, "grey", Font("regular", 12, "#777"))
    canvas.line(0.3, (32, 14), (56, 14), (50, 20))
    canvas.line(1.2, (32, 24), (56, 24), ink="#c00")
    canvas.line(8, (32, 32), (56, 32), ink="#ddd")
    canvas.fill("M4 30L12 30L12 36L4 36zM6 31L6 35L10 35L10 31z")
    canvas.fill("M16 36C16 28 26 28 26 36z")
    return canvas


def of_drawing(drawings: Drawings) -> str:
    wide, high = SIZE
    name = drawings.add(sample())
    return (
        "<html lang=en><title>A</title><body><p>Text of the page"
        f'<img alt="" src="{HOME}{name}" style="width:{wide}mm;height:{high}mm">'
    )


def test_strokes_areas_and_words_look_alike() -> None:
    assert alike(both(of_drawing))


#: Faults by name: what stands in the operators of the drawing, and what is written in its place.
FAULTS = {
    "words lack": ("BT 0 0 0 rg", "BT 3 Tr 0 0 0 rg"),
    "a thin stroke lacks": ("50 20 l S", "50 20 l n"),
    "a stroke is too thick": ("0.3 w", "1.1 w"),
    "a stroke is too thin": ("1.2 w", "0.2 w"),
    "another colour of the same grey": ("0.8 0 0 RG", "0 0.4 0 RG"),
    "a pale area lacks": ("8 w", "0.1 w"),
    "a hole is filled": ("6 31 m 6 35 l 10 35 l 10 31 l", "6 31 m 10 31 l 10 35 l 6 35 l"),
    "all is moved by half a millimetre": ("4 M", "4 M 1 0 0 1 0.5 0 cm"),
    "words are upside down": (" Tf 1 0 0 -1", " Tf 1 0 0 1"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_of_a_drawing_would_be_seen(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    right, wrong = (each.encode() for each in FAULTS[fault])

    def faulty(canvas: Canvas) -> Content:
        drawn = content(canvas)
        assert right in drawn.operators
        return replace(drawn, operators=drawn.operators.replace(right, wrong, 1))

    monkeypatch.setattr("formsheet.sheet.pdf.content.content", faulty)
    assert not alike(both(of_drawing))


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
