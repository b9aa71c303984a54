"""The fonts of a printed sheet: each embedded once, as a subset, readable as text."""

from __future__ import annotations

import io
import re
import subprocess
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import pikepdf
import pytest
from fontTools.ttLib import TTFont
from pdfminer.high_level import extract_text

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.typeface import typeface
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.pdf.fonts import NAMES as FONT_NAMES
from formsheet.sheet.pdf.setting import set_pdf
from formsheet.sheet.typeset import HOME, sheet_html
from tests.lessons import NAMES
from tests.sheet.demos import printed, sheet

MOST = 70_000  # bytes of a demo's sheet, own choice: what a message takes without a thought
TAGGED = re.compile(r"/?([A-Z]{6})\+(.+)")  # ISO 32000-1, 9.6.4
FACES = {name: face for face, name in FONT_NAMES.items()}


def poppler(program: str, pdf: bytes) -> str:
    return subprocess.run(
        [program, "-", *(["-"] if program == "pdftotext" else [])],
        input=pdf, capture_output=True, check=True,
    ).stdout.decode()  # fmt: skip


def letters(text: str) -> Counter[str]:
    """Without hyphens: poppler takes those at the ends of lines for hyphenation."""
    return Counter(character for character in text if not character.isspace() and character != "-")


@dataclass
class Shown:
    """A font of a PDF, and the codes that are shown in it."""

    file: bytes
    widths: dict[int, float]
    codes: set[int] = field(default_factory=set)

    def font(self) -> TTFont:
        """The embedded file; a wrong check sum is an error."""
        return TTFont(io.BytesIO(self.file), checkChecksums=2)


@cache
def shown(pdf: bytes) -> dict[str, Shown]:
    """The fonts of a PDF by name."""
    found: dict[str, Shown] = {}
    with pikepdf.open(io.BytesIO(pdf)) as document:
        for each in [*document.pages, *filter(is_form, document.objects)]:
            fonts, name = each.get("/Resources").get("/Font", {}), ""
            for step in pikepdf.parse_content_stream(each):
                if str(step.operator) == "Tf":
                    font = fonts[str(step.operands[0])]
                    name, own = str(font.BaseFont), font.DescendantFonts[0]
                    if name not in found:
                        file = own.FontDescriptor.FontFile2.read_bytes()
                        found[name] = Shown(file, widths(own.W))
                elif str(step.operator) in ("Tj", "TJ"):
                    found[name].codes |= set(codes_of(step.operands[0]))
    return found


def is_form(found: pikepdf.Object) -> bool:
    return isinstance(found, pikepdf.Stream) and found.get("/Subtype") == "/Form"


def widths(array: Any) -> dict[int, float]:
    """The widths of a font by code (ISO 32000-1, 9.7.4.3: runs of codes)."""
    runs = zip(list(array)[::2], list(array)[1::2], strict=True)
    return {int(first) + i: float(width) for first, run in runs for i, width in enumerate(run)}


def codes_of(operand: Any) -> Iterator[int]:
    """The codes of two bytes in a text, or in an array of texts and numbers."""
    parts = operand if isinstance(operand, pikepdf.Array) else [operand]
    for part in parts:
        if isinstance(part, pikepdf.String):
            written = bytes(part)
            yield from (int.from_bytes(written[i : i + 2]) for i in range(0, len(written), 2))


def contours(font: TTFont, glyph: int) -> tuple[list[object], ...]:
    glyphs = font["glyf"]
    points, ends, flags = glyphs[font.getGlyphName(glyph)].getCoordinates(glyphs)
    return list(points), list(ends), list(flags)


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_takes_little_room(name: str) -> None:
    assert len(printed(name)) <= MOST


@pytest.mark.parametrize("name", NAMES)
def test_every_font_is_an_embedded_subset_for_another_reader(name: str) -> None:
    rows = [row.split() for row in poppler("pdffonts", printed(name)).splitlines()[2:]]
    assert len(rows) > 1
    for row in rows:
        *_, embedded, subset, to_unicode, _object, _generation = row
        assert (embedded, subset, to_unicode) == ("yes", "yes", "yes"), row
    named = [tagged(row[0]) for row in rows]
    assert len(named) == len(set(named))  # each face once


def whole_face(name: str) -> TTFont:
    """The face that a font is of; the setter names signs in a bold text a face of their own."""
    return typeface(FACES.get(tagged(name), "signs")).font


def tagged(name: str) -> str:
    """A font's name without its tag."""
    found = TAGGED.fullmatch(name)
    assert found, name
    return found[2]


@pytest.mark.parametrize("name", NAMES)
def test_a_font_has_the_outlines_that_are_shown_and_no_others(name: str) -> None:
    for base, font in shown(printed(name)).items():
        file, codes, whole = font.font(), font.codes, whole_face(base)
        order = file.getGlyphOrder()
        needed = codes.copy()
        for code in codes:
            assert contours(file, code) == contours(whole, code), (base, code)
            parts = whole["glyf"][whole.getGlyphName(code)].getComponentNames(whole["glyf"])
            needed |= {whole.getGlyphID(part) for part in parts}
        drawn = {i for i, glyph in enumerate(order) if file["glyf"][glyph].numberOfContours}
        assert drawn <= needed, base
        assert drawn


@pytest.mark.parametrize("name", NAMES)
def test_widths_are_those_of_the_face_and_of_the_file(name: str) -> None:
    """PDF/UA-1 (ISO 14289-1), 7.21.5: from memory."""
    for base, font in shown(printed(name)).items():
        file, whole = font.font(), whole_face(base)
        assert font.codes <= font.widths.keys()
        for code, width in font.widths.items():
            for each in (file, whole):
                advance = each["hmtx"][each.getGlyphName(code)][0]
                assert width == pytest.approx(1000 * advance / whole["head"].unitsPerEm, abs=0.5)


@pytest.mark.parametrize("name", NAMES)
def test_three_readers_find_the_text_that_the_setter_alone_would_print(name: str) -> None:
    drawings = Drawings(as_svg=True)
    html = sheet_html(sheet(name), drawings, linked=False)
    alone = letters(poppler("pdftotext", set_pdf(html, drawings, HOME)))
    assert sum(alone.values()) > 100
    assert letters(poppler("pdftotext", printed(name))) == alone
    assert letters(extract_text(io.BytesIO(printed(name)))) - Counter("\f") == alone


def page(body: str, texts: dict[str, str], as_svg: bool = False) -> bytes:
    """A page with a text, and a drawing of texts by face."""
    canvas = Canvas(60, 40)
    for row, (face, text) in enumerate(texts.items()):
        canvas.text(2, 9 * row + 9, text, Font(face, 20))  # type: ignore[arg-type]
    drawings = Drawings(as_svg=as_svg)
    image = f'<img alt="" src="{HOME}{drawings.add(canvas)}" style="width:60mm;height:40mm">'
    return set_pdf(f"<html lang=en><title>A</title><body><p>{body}{image}", drawings, HOME)


def test_a_face_that_the_setter_does_not_use_is_added() -> None:
    names = {tagged(name) for name in shown(page("Tea", {"italic": "Zürich", "bold": "4"}))}
    assert names == {FONT_NAMES[face] for face in ("regular", "italic", "bold")}


def test_other_glyphs_give_another_tag() -> None:
    """ISO 32000-1, 9.6.4: different subsets of one font have different tags."""
    fonts = [
        {tagged(name): name for name in shown(page("Tea", {"italic": text}))}
        for text in ("Zürich", "hcirüZ", "Zug")
    ]
    one, same, other = (each[FONT_NAMES["italic"]] for each in fonts)
    assert (one == same, one == other) == (True, False)


def test_equal_pages_have_equal_bytes() -> None:
    one, other = (page("Tea", {"italic": "Zürich", "regular": "♭ é ő"}) for _ in range(2))
    assert one == other


def test_a_font_with_codes_of_its_own_is_left_to_the_setter(
    caplog: pytest.LogCaptureFixture,
) -> None:
    """The setter gives letters that no face has codes of their own."""
    printed_page = page("Tea \ue000", {"regular": "Zürich"})
    assert ".notdef glyph rendered" in caplog.text
    same = [name for name in shown(printed_page) if tagged(name) == FONT_NAMES["regular"]]
    assert len(same) == 2
    assert "Zürich" in poppler("pdftotext", printed_page)


def test_a_drawing_within_a_group_of_the_page_is_replaced_too() -> None:
    """A part that is not opaque is a form of its own, with resources of its own."""
    body = '<span style="display:block;opacity:0.5">'
    assert "Zürich" in poppler("pdftotext", page(body, {"bold": "Zürich"}))


def test_no_image_is_left() -> None:
    with pikepdf.open(io.BytesIO(printed(NAMES[0]))) as document:
        kinds = [
            each.get("/Subtype") for each in document.objects if isinstance(each, pikepdf.Stream)
        ]
    assert "/Image" not in kinds
