"""The printed sheet, read back: nothing overlaps, nothing is cut, time is to scale."""

from __future__ import annotations

import io
import logging
from collections.abc import Iterator
from typing import Any, cast

import pypdf
import pytest

from formsheet.sheet.draw.form import in_fours
from formsheet.sheet.draw.lines import bar_width
from formsheet.sheet.draw.paper import PAPERS
from formsheet.sheet.draw.rows import BAR_NUMBER
from formsheet.sheet.draw.scale import INSET
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.options import PageSize
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.typeset import sheet_html, sheet_pdf
from formsheet.sheet.view import Bar
from tests.sheet.gallery import GALLERY
from tests.sheet.printed import MM, Page, overlaps, pages, pdf

SIZES: tuple[PageSize, ...] = ("A4", "Letter", "A4 portrait")
WHOLE_LINES = sorted(set(GALLERY) - {"split-lines", "ties", "last-bars", "light-swing"})
LEAST = {"dense": 11.0}


def bars(name: str) -> list[Bar]:
    return [bar for chorus in GALLERY[name]().choruses for line in chorus.lines for bar in line]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", GALLERY)
def test_no_ink_leaves_the_page_margins(name: str, size: PageSize) -> None:
    paper = PAPERS[size]
    for page in pages(name, size):
        assert page.width == pytest.approx(paper.width * MM, abs=0.5)
        for char in page.chars:
            assert char.left >= paper.side * MM - 1, char
            assert char.right <= page.width - paper.side * MM + 1, char
            assert char.top >= paper.top * MM - 1, char
            assert char.bottom <= page.height - 3 * MM, char


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", GALLERY)
def test_no_two_characters_overlap(name: str, size: PageSize) -> None:
    for page in pages(name, size):
        assert list(overlaps(page)) == []


def _bar_places(name: str) -> Iterator[tuple[Bar, Page, float, float, float, float]]:
    """Each bar of a chorus: its page, left edge, width, top and foot (points)."""
    sheet = GALLERY[name]()
    paper = PAPERS["A4"]
    found = {page: _numbered(page) for page in pages(name)}
    on_page = iter(page for page in pages(name) if found[page])
    for chorus in sheet.choruses:
        page = next(on_page)
        lines = list(in_fours(chorus.lines))
        across = max(len(line) for line in lines)
        width = bar_width(paper.room, across, chorus.pickup)
        left = paper.width - paper.side - across * width
        tops = [found[page][line[0].number] for line in lines]
        feet = [*tops[1:], page.height - paper.foot * MM]
        for line, top, foot in zip(lines, tops, feet, strict=True):
            for i, bar in enumerate(line):
                yield bar, page, (left + i * width) * MM, width * MM, top, foot


def _numbered(page: Page) -> dict[int, float]:
    """Tops (points) of the bars whose numbers stand on the page."""
    numbers: dict[int, float] = {}
    for run in page.runs():
        text = "".join(char.text for char in run)
        small = run[0].size == BAR_NUMBER.size and run[0].face == "regular"
        if text.isdigit() and small and run[0].base < page.height - 12 * MM:
            numbers.setdefault(int(text), run[0].base - 4 * MM)
    return numbers


@pytest.mark.parametrize("name", WHOLE_LINES)
def test_each_number_stands_at_its_time_and_is_large_enough(name: str) -> None:
    seen = 0
    for bar, page, left, width, top, foot in _bar_places(name):
        quarter = (width - INSET * MM) / float(bar.length)
        runs = [run for run in page.runs() if top < run[0].base < foot]
        for mark in bar.marks:
            if mark.tab is None or mark.hold:
                continue
            x = left + INSET * MM + float(mark.onset) * quarter
            face = "bold" if mark.landing else "regular"
            for hole in mark.tab.holes:
                seen += 1
                near = [
                    run
                    for run in runs
                    if "".join(char.text for char in run) == str(hole)
                    and run[0].face == face
                    and abs((run[0].left + run[-1].right) / 2 - x) < 0.5 * MM
                    and run[0].size >= LEAST.get(name, 13.0)
                ]
                assert near, (bar.number, mark)
    assert seen >= 12


@pytest.mark.parametrize("name", GALLERY)
def test_bars_chords_and_licks_read_in_order(name: str) -> None:
    text = "".join(page.text for page in pages(name))
    at = 0
    for bar in bars(name):
        words = str(bar.number)
        words += "".join(f"{c.numeral}·{c.letter}" for c in bar.chords)
        if bar.starts_lick and name != "pickup":
            words += (bar.lick + bar.round).replace(" ", "")
        found = text.find(accidentals(words), at)
        assert found >= at, words
        at = found + len(words)


def test_a_bars_tab_reads_in_the_order_of_the_music() -> None:
    text = "".join(page.text for page in pages("common"))
    assert "23'44'21&2&3&4&" in text
    assert "45443''1&2&3&4&" in text


@pytest.mark.parametrize(
    ("name", "count"), [("common", 12), ("blocks", 12), ("half-bars", 12), ("sixteen", 16)]
)
def test_a_form_keeps_to_one_page(name: str, count: int) -> None:
    assert sorted(n for n in _numbered(pages(name)[0]) if n) == list(range(1, count + 1))


def test_each_chorus_has_its_own_page() -> None:
    first, second, third, *_ = pages("three-choruses")
    assert "Chorus1" in first.text
    assert "Secondchorusplay3times" in second.text
    assert "Chorus3,lasttime" in third.text


@pytest.mark.parametrize("name", GALLERY)
def test_printing_logs_nothing_and_repeats_itself(
    name: str, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.WARNING):
        again = sheet_pdf(GALLERY[name]())
    assert caplog.records == []
    assert again == pdf(name)


def test_the_file_is_tagged_and_each_bar_has_its_words() -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf("common")))
    root = cast(Any, reader.trailer["/Root"])
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert reader.metadata is not None
    assert reader.metadata.title == "Gravel Lane Shuffle"
    told = list(_alternatives(root["/StructTreeRoot"]))
    spoken = [bar.spoken for bar in bars("common")]
    assert [words for words in told if words in spoken][: len(spoken)] == spoken


def _alternatives(element: object) -> Iterator[str]:
    if isinstance(element, pypdf.generic.IndirectObject):
        element = element.get_object()
    if isinstance(element, list):
        for child in element:
            yield from _alternatives(child)
    elif isinstance(element, dict):
        if "/Alt" in element:
            yield str(element["/Alt"])
        yield from _alternatives(element.get("/K"))


def test_the_footer_names_file_rights_and_page() -> None:
    last = pages("common")[-1]
    count = len(pages("common"))
    assert f"Page{count}of{count}" in last.text
    assert "gravel-lane.lesson" in last.text
    assert "TheMillLaneHarpClass·Copyitforyourownstudents·2026-11-02" in last.text


def test_a_long_title_is_printed_whole() -> None:
    title = GALLERY["long-title"]().title.replace(" ", "")
    assert title in pages("long-title")[0].text


def test_texts_are_escaped() -> None:
    html = sheet_html(GALLERY["long-title"](), Drawings())
    assert "&lt;half way&gt; &amp; Tea" in html
    assert "<half way>" not in html


def test_only_our_own_faces_are_used() -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf("half-bars")))
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in reader.pages
        for font in cast(Any, page["/Resources"])["/Font"].values()
    }
    assert fonts
    assert all("Lesson-S" in font for font in fonts), fonts


def test_half_bar_chords_stand_at_their_onset() -> None:
    page = pages("half-bars")[0]
    width = PAPERS["A4"].room / 4
    half = INSET + (width - INSET) / 2
    run = next(r for r in page.runs() if "".join(c.text for c in r) == "IV7" and r[0].size == 14)
    assert run[0].left == pytest.approx((PAPERS["A4"].side + half) * MM, abs=1.5 * MM)
