"""A subset of a face, read by a library for fonts."""

from __future__ import annotations

from io import BytesIO

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from formsheet.sheet.draw.typeface import FACE_FILES, typeface
from formsheet.sheet.pdf.content import glyph_id
from formsheet.sheet.pdf.face_subset import TABLES, subset


def read(face: str, glyphs: set[int]) -> TTFont:
    """The subset; a wrong check sum is an error."""
    return TTFont(BytesIO(subset(face, glyphs)), checkChecksums=2)


def outline(font: TTFont, glyph: int) -> list[object]:
    pen = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[font.getGlyphName(glyph)].draw(pen)
    drawn: list[object] = pen.value
    return drawn


def has_outline(font: TTFont, glyph: int) -> bool:
    return bool(font["glyf"][font.getGlyphName(glyph)].numberOfContours)


@pytest.mark.parametrize("face", FACE_FILES)
def test_each_glyph_alone_is_as_in_the_face(face: str) -> None:
    whole = typeface(face).font
    for glyph in range(whole["maxp"].numGlyphs):
        assert outline(read(face, {glyph}), glyph) == outline(whole, glyph)


def test_what_is_not_asked_for_is_empty_and_has_no_width() -> None:
    kept = {glyph_id(character, "bold") for character in "4a"}
    font = read("bold", kept)
    count = font["maxp"].numGlyphs
    assert {glyph for glyph in range(count) if has_outline(font, glyph)} == kept
    wide = {glyph for glyph in range(count - 1) if font["hmtx"][font.getGlyphName(glyph)][0]}
    assert wide == kept


def test_a_letter_with_an_accent_brings_letter_and_accent() -> None:
    accented = glyph_id("é", "regular")
    font = read("regular", {accented})
    drawn = {glyph for glyph in range(font["maxp"].numGlyphs) if has_outline(font, glyph)}
    assert {accented, glyph_id("e", "regular")} < drawn
    assert len(drawn) == 3


def test_only_tables_that_a_pdf_needs_are_kept() -> None:
    assert set(read("italic", {3}).keys()) - {"GlyphOrder"} == set(TABLES)


def test_numbers_that_the_face_does_not_have_are_left_out() -> None:
    assert subset("signs", {2, 60_000}) == subset("signs", {2})
    assert subset("signs", {2}) != subset("signs", {3})
