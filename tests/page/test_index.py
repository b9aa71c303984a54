"""The library page as a file."""

from __future__ import annotations

import re

from formsheet.page.index import Entry, Link, library_page


def entry(title: str, **changes: str) -> Entry:
    words = {"harp": "C", "position": "2nd", "key": "G", "form": "8-bar", "tempo": "92"} | changes
    folder = title.lower().replace(" ", "-")
    return Entry(title, **words, links=(Link("Play along", f"{folder}/page.html"),))


def titles(page: bytes) -> list[str]:
    return re.findall("<h2>(.*?)</h2>", page.decode())


def test_lessons_are_listed_by_title() -> None:
    page = library_page([entry("Tin Roof"), entry("apple Cart"), entry("Mill Race")])
    assert titles(page) == ["apple Cart", "Mill Race", "Tin Roof"]


def test_the_order_of_entries_does_not_matter() -> None:
    one, other = entry("Tin Roof", harp="A"), entry("Tin Roof", harp="C")
    assert library_page([one, other]) == library_page([other, one])


def test_what_stands_in_an_entry() -> None:
    page = library_page([entry("Tin Roof", harp="Bb", key="F")]).decode()
    assert "<dt>Harp</dt> <dd>B♭</dd>" in page
    assert 'href="tin-roof/page.html"' in page


def test_paths_are_quoted_and_titles_escaped() -> None:
    page = library_page([entry('a "b" <c>#1?')]).decode()
    assert 'href="a-%22b%22-%3Cc%3E%231%3F/page.html"' in page
    assert titles(page.encode()) == ["a &#34;b&#34; &lt;c&gt;#1?"]


def test_an_empty_library_says_so() -> None:
    assert "No lessons yet." in library_page([]).decode()


def test_nothing_comes_from_outside() -> None:
    page = library_page([entry("Tin Roof")]).decode()
    assert "<script" not in page
    assert set(re.findall(r"url\(([^;]*);", page)) == {"data:font/woff2"}
