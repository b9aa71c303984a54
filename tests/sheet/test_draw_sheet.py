"""The printed sheet as a whole: what stands in head and foot, in which faces, in which order."""

from __future__ import annotations

import io
from typing import Any, cast

import pypdf
import pytest

from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.typeset import sheet_html
from tests.sheet.gallery import GALLERY, SETTINGS, gallery_sheet, setting_pdf
from tests.sheet.placed import Placed, placed_bars
from tests.sheet.printed import pages, pdf, read


def bars(name: str) -> list[Placed]:
    return placed_bars(gallery_sheet(name), pdf(name), pages(name))


def over(placed: Placed) -> str:
    """What stands over a bar, row by row."""
    found = [
        char for char in placed.chars
        if char.bottom < placed.top and not any(box.holds(char) for box in placed.boxes)
    ]  # fmt: skip
    return "".join(char.text for char in sorted(found, key=lambda c: (c.base, c.left)))


def test_the_head_says_harp_position_key_form_tempo_and_feel() -> None:
    text = pages("common")[0].text
    assert text.startswith("GravelLane")
    for words in ("Charp·2ndposition·keyofG", "12-barstandard", "104aminute", "startat60", "swing"):
        assert words in text


def test_the_legend_says_which_side_is_blow() -> None:
    for name in GALLERY:
        text = pages(name)[0].text
        assert ("blow,above" in text) == ("draw,below" in text)
        assert "blow,above" in text


def test_the_footer_has_title_harp_and_page() -> None:
    for number, page in enumerate(pages("common"), start=1):
        assert f"{number}/{len(pages('common'))}" in page.text
        assert "GravelLane·Charp,2ndposition" in page.text


def test_a_long_title_is_printed_whole() -> None:
    title = gallery_sheet("long-title").title.replace(" ", "")
    assert title in pages("long-title")[0].text


def test_texts_are_escaped() -> None:
    html = sheet_html(gallery_sheet("long-title"), Drawings())
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


def test_half_bar_chords_stand_at_their_beat() -> None:
    seen = 0
    for placed in bars("half-bars"):
        if len(placed.bar.chords) < 2:
            continue
        second = placed.bar.chords[1]
        numeral = accidentals(second.numeral)
        first = [
            char for char in placed.chars
            if char.face in ("bold", "signs") and char.text == numeral[0]
            and char.bottom < placed.top and abs(char.left - placed.x(second.onset)) < 4
        ]  # fmt: skip
        assert first, placed.bar.number
        seen += 1
    assert seen == 6


def test_changes_of_feel_stand_in_the_order_in_which_they_come() -> None:
    seen = 0
    for placed in bars("half-bars"):
        words = [change.feel for change in placed.bar.feels]
        head, at = over(placed), 0
        for word in words:
            at = head.index(word, at) + len(word)
        seen += len(words)
    assert seen >= 10


def test_a_title_stands_where_its_lick_comes_first_and_nowhere_else() -> None:
    for placed in bars("common"):
        bar = placed.bar
        title = bar.lick.replace(" ", "")
        assert (title in over(placed)) == bar.first_time, bar.number
    assert sum(placed.bar.first_time for placed in bars("common")) == 5


def test_the_letter_of_a_lick_is_at_one_place_in_a_chorus() -> None:
    places = {
        round(circle.left - placed.left, 1)
        for placed in bars("common")
        for circle in placed.shapes
        if circle.steps == "mcccch" and circle.weight and circle.bottom < placed.top
        and placed.bar.opens
    }  # fmt: skip
    assert len(places) == 1


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("last-bars", ("1stand2ndtime", "Lasttime,insteadofbars11and12")),
        ("three-choruses", ("Chorus1", "Secondchorus", "play3times")),
        ("pickup-once", ("once",)),
    ],
)
def test_words_of_repeats(name: str, words: tuple[str, ...]) -> None:
    text = "".join(page.text for page in pages(name))
    for each in words:
        assert each in text


@pytest.mark.parametrize("name", [name for name in SETTINGS if name.startswith("large")])
def test_no_text_of_large_print_is_small(name: str) -> None:
    """Our own choice: 9 pt, that of the footer, but for a 3 and the marks in the legend."""
    small = [
        char for page in read(setting_pdf(name)) for char in page.chars
        if char.size < 9 and char.text not in "3bd"
    ]  # fmt: skip
    assert small == []


@pytest.mark.parametrize("name", ["common", "ties", "right-to-left"])
def test_the_file_names_its_title(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf(name)))
    assert reader.metadata is not None
    assert reader.metadata.title == gallery_sheet(name).title
