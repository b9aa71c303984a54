"""The demo lessons' sheets, read back by a PDF library that knows nothing of them."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from functools import cache
from itertools import combinations
from typing import Any

import pdfplumber
import pypdf
import pytest
from pdfplumber.page import Page

from formsheet.sheet.draw.log import log_height
from formsheet.sheet.draw.paper import PAPERS
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Bar, HoleMark
from tests.lessons import NAMES
from tests.sheet.demos import printed, sheet


@cache
def pages(name: str) -> tuple[Page, ...]:
    """The pages, parsed once: they keep what they have read."""
    return tuple(pdfplumber.open(io.BytesIO(printed(name))).pages)


@cache
def text_of_choruses(name: str) -> str:
    """All text of the pages in the file's order, without white space."""
    chars = [char["text"] for page in pages(name) for char in page.chars]
    return "".join("".join(chars).split())


def bars(name: str) -> list[Bar]:
    return [bar for chorus in sheet(name).choruses for line in chorus.lines for bar in line]


def number_and_chords(bar: Bar) -> str:
    chords = "".join(f"{chord.numeral}·{chord.letter}" for chord in bar.chords)
    return f"{bar.number}{accidentals(chords)}"


def digits(tab: HoleMark) -> str:
    return "".join(map(str, sorted(tab.holes, reverse=True)))


@pytest.mark.parametrize("name", NAMES)
def test_every_bar_has_its_number_and_chords_in_order(name: str) -> None:
    text, at = text_of_choruses(name), 0
    for bar in bars(name):
        wanted = number_and_chords(bar)
        found = text.find(wanted, at)
        assert found >= 0, wanted
        at = found + len(wanted)


@pytest.mark.parametrize("name", NAMES)
def test_every_bar_has_its_tab_in_order(name: str) -> None:
    text, at = text_of_choruses(name), 0
    in_order = bars(name)
    for bar, following in zip(in_order, [*in_order[1:], None], strict=True):
        start = text.index(number_and_chords(bar), at) + len(number_and_chords(bar))
        end = text.index(number_and_chords(following), start) if following else len(text)
        played = [digits(mark.tab) for mark in bar.marks if mark.tab and not mark.hold]
        pattern = "[^0-9]*".join(re.escape(each) for each in played)
        assert re.search(pattern, text[start:end]), (bar.number, played, text[start:end])
        at = start


@pytest.mark.parametrize("name", NAMES)
def test_no_text_leaves_the_page(name: str) -> None:
    for page in pages(name):
        for word in page.extract_words():
            assert 0 <= word["x0"] <= word["x1"] <= page.width, word
            assert 0 <= word["top"] <= word["bottom"] <= page.height, word


@pytest.mark.parametrize("name", NAMES)
def test_the_log_is_on_one_page_where_it_is_not_too_high(name: str) -> None:
    titled = [page.page_number for page in pages(name) if has_text(page, "Practicelog")]
    whole = "".join(sheet(name).practice[-1].rows[0].name.split())
    ended = [page.page_number for page in pages(name) if has_text(page, whole)]
    assert (titled == ended) == (log_height(sheet(name)) <= PAPERS["A4"].depth)


def has_text(page: Page, text: str) -> bool:
    return text in "".join(char["text"] for char in page.chars).replace(" ", "")


@pytest.mark.parametrize("name", NAMES)
def test_no_two_tab_marks_overlap(name: str) -> None:
    for page in pages(name):
        boxes = [ink(char) for char in page.chars if char["text"].isdigit()]
        assert len(boxes) > 10
        assert [pair for pair in combinations(boxes, 2) if overlap(*pair)] == []


Box = tuple[float, float, float, float]


def ink(char: dict[str, Any]) -> Box:
    """Left, right, top and bottom of a digit: 0.7 of its size high, its side bearings taken off."""
    base, bearing = char["matrix"][5], 0.06 * char["size"]
    return char["x0"] + bearing, char["x1"] - bearing, base, base + 0.7 * char["size"]


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share more than a hair."""
    hair = 0.2
    across = min(one[1], other[1]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[2], other[2])
    return across > hair and down > hair


@pytest.mark.parametrize("name", NAMES)
def test_document_has_title_language_and_tags(name: str) -> None:
    root: Any = pypdf.PdfReader(io.BytesIO(printed(name))).trailer["/Root"]
    info = pypdf.PdfReader(io.BytesIO(printed(name))).metadata
    assert info is not None
    assert info.title == sheet(name).title
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]


@pytest.mark.parametrize("name", NAMES)
def test_every_bar_is_spoken_in_order(name: str) -> None:
    root: Any = pypdf.PdfReader(io.BytesIO(printed(name))).trailer["/Root"]
    spoken = [text for text in alternatives(root["/StructTreeRoot"]) if text.startswith("Bar ")]
    wanted = [bar.spoken for bar in bars(name)]
    assert spoken[: len(wanted)] == wanted


def alternatives(element: Any) -> Iterator[str]:
    """The alternative texts of a tagged document, in reading order."""
    element = element.get_object() if hasattr(element, "get_object") else element
    if isinstance(element, list):
        for each in element:
            yield from alternatives(each)
    elif isinstance(element, dict):
        if "/Alt" in element:
            yield str(element["/Alt"])
        yield from alternatives(element.get("/K"))
