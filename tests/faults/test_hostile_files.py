"""Lessons that mean harm: every file of the pack that a browser, a printer or a program reads."""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest

from formsheet.page.index import Entry, library_page
from formsheet.page.library import entries
from tests.faults.test_hostile import HARM, hostile
from tests.parts import part_files

#: Text that is odd without being markup: what turns lines round, ends or hides them, never ends.
ODD = (
    "' onload='alert(1)",
    "--> <!--<script>",
    "${alert(1)} `x` \\u003c/script\\x3e \\",
    "a\u202eb\u2066c",
    "line\u2028paragraph\u2029end",
    "é\u200cé\u200dé",
    "e" + "\u0301" * 199,
    "日本 שלום",
    "w" * 200,
)


@cache
def files(text: str) -> dict[str, bytes]:
    """The files of a lesson that says it everywhere, but for sheet and sound."""
    each = hostile(text)
    parts = ("text", "json", "notes", "page", "cards")
    return {n: data for part in parts for n, data in part_files(part, each).items()}


class _Elements(HTMLParser):
    """Counts elements and attributes, as a browser would find them."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.found: Counter[tuple[str, ...]] = Counter()
        self.feed(page.decode())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.update([(tag,), *((tag, name) for name, _ in attrs)])


def kinds(page: bytes) -> set[tuple[str, ...]]:
    """Elements and attributes that occur."""
    return set(_Elements(page).found)


@pytest.mark.parametrize("text", [*HARM, *ODD])
def test_page(text: str) -> None:
    page, plain = files(text)["page.html"], files("Plain")["page.html"]
    assert kinds(page) <= kinds(plain) | {("text",), ("text", "x"), ("text", "y")}
    for scripts in ("script", "style", "meta", "link", "img", "iframe"):
        assert _Elements(page).found[scripts,] == _Elements(plain).found[scripts,]


@pytest.mark.parametrize("text", [*HARM, *ODD])
def test_files_for_programs(text: str) -> None:
    title = text.replace('"', "'")
    assert json.loads(files(text)["lesson.json"])["title"] == title
    score = ElementTree.fromstring(files(text)["tune.musicxml"])
    assert score.findtext("work/work-title") == title
    assert files(text)["tab.txt"].decode().startswith(f"{title}\n")


@pytest.mark.parametrize("text", [*HARM, *ODD])
def test_cards(text: str) -> None:
    drawn = {name: data for name, data in files(text).items() if name.endswith(".svg")}
    assert drawn
    for data in drawn.values():
        tags = {each.tag.rpartition("}")[2] for each in ElementTree.fromstring(data).iter()}
        assert tags <= {"svg", "g", "path", "rect", "text", "title", "desc"}


@pytest.mark.parametrize("text", [*HARM, *ODD])
def test_list_of_lessons(text: str, tmp_path: Path) -> None:
    """From the page, which tells what it is a page of, to the list."""
    (tmp_path / "a").mkdir()
    (tmp_path / "a/page.html").write_bytes(files(text)["page.html"])
    (found,) = entries(tmp_path)
    assert found.title == text.replace('"', "'")
    plain = library_page([Entry("Plain", "C", "2nd", "G", "8-bar", "92", found.links)])
    assert _Elements(library_page([found])).found == _Elements(plain).found
