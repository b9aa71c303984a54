"""Links where a student meets them: on paper, in the PDF, in the page, in text and data."""

from __future__ import annotations

import io
import json
from dataclasses import replace
from functools import cache

import pikepdf
import pytest
from jsonschema import Draft202012Validator

from formsheet.exports.data import lesson_json
from formsheet.exports.musicxml.score import musicxml
from formsheet.exports.text import text_tab
from formsheet.page.page import page_html
from formsheet.report.schema import schema_text
from formsheet.sheet.make_view import make_view
from formsheet.sheet.typeset import sheet_pdf
from formsheet.stages import Examined
from tests.helpers import examined, over

FIRST = "https://class.example/27?a=1&b=2"
SECOND = "http://class.example/é"
LINKS = f"""link "Watch <b>the</b> lesson" {FIRST}
link {SECOND}
"""
TEXT = LINKS + over("I | IV", "q 2d 3d 4d 5d | q 4b 5b 6b -")


@cache
def found() -> Examined:
    return examined(TEXT)


@cache
def pdf() -> bytes:
    each = found()
    assert each.tune, each.problems
    return sheet_pdf(make_view(each.tune, each.fits, each.file_name))


def test_the_pdf_has_a_link_annotation_for_each() -> None:
    with pikepdf.open(io.BytesIO(pdf())) as read:
        notes = [note for page in read.pages for note in page.get("/Annots", [])]
        uris = [str(note.A.URI) for note in notes if note.Subtype == "/Link"]
        assert uris == [FIRST, "http://class.example/%C3%A9"]
        assert all(note.A.S == "/URI" and str(note.Contents) for note in notes)


def test_each_annotation_has_its_tag() -> None:
    """A Link element with an object reference: PDF/UA-1, 7.18.5 (from memory)."""
    with pikepdf.open(io.BytesIO(pdf())) as read:
        elements = [each for each in read.objects if isinstance(each, pikepdf.Dictionary)]
        links = [each for each in elements if each.get("/S") == "/Link"]
        assert len(links) == 2
        for link in links:
            kids = link.K if isinstance(link.K, pikepdf.Array) else [link.K]
            types = [kid.get("/Type") for kid in kids if isinstance(kid, pikepdf.Dictionary)]
            assert "/OBJR" in types


def test_the_address_is_printed() -> None:
    pypdf = pytest.importorskip("pypdf")
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf())).pages)
    assert f"Watch <b>the</b> lesson: {FIRST}" in " ".join(text.split())
    assert SECOND in text


def test_links_alone_have_their_place_on_the_sheet() -> None:
    each = found()
    assert each.tune
    sheet = make_view(each.tune, each.fits, each.file_name)
    assert sheet.says == ()
    assert len(sheet_pdf(replace(sheet, links=()))) < len(pdf())


def test_the_page_has_them() -> None:
    each = found()
    assert each.tune
    html = page_html(each.tune, make_view(each.tune, each.fits, each.file_name)).decode()
    assert f'<a href="{FIRST.replace("&", "&amp;")}" target="_blank" rel="noopener' in html
    assert "Watch &lt;b&gt;the&lt;/b&gt; lesson" in html


def test_the_text_has_them() -> None:
    each = found()
    assert each.tune
    assert f"Watch <b>the</b> lesson:\n{FIRST}\n{SECOND}\n" in text_tab(each.tune)


def test_the_data_has_them_and_follows_its_schema() -> None:
    data = json.loads(lesson_json(found()))
    assert data["links"] == [
        {"title": "Watch <b>the</b> lesson", "url": FIRST},
        {"title": None, "url": SECOND},
    ]
    Draft202012Validator(json.loads(schema_text("show"))).validate(data)


def test_musicxml_names_them() -> None:
    each = found()
    assert each.tune
    assert '<miscellaneous-field name="link">http://class.example/é<' in musicxml(each.tune)
