"""The lessons that have a page in a folder of handouts, as described in each page."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, replace
from html.parser import HTMLParser
from pathlib import Path

from formsheet.page.index import Entry, Link, library_page
from formsheet.sheet.view import Sheet

PAGE = "page.html"
NAMED = "formsheet-lesson"  # name of the meta element that describes the lesson of a page
_HEAD = 16_384  # bytes of a page that contain that element

#: A mark in the head of every library page.
LIBRARY_MARK = b'<meta name="generator" content="formsheet">'

#: Files of a pack that the library page links to, and their names there.
_LINKS = {
    PAGE: "Play along",
    "sheet.pdf": "Sheet to print",
    "tab.txt": "Tab as text",
    "tune.musicxml": "Staff notation",
}


def description(sheet: Sheet) -> str:
    """The description of a lesson for its page, as JSON."""
    facts = {fact.label: fact.text for fact in sheet.facts}
    entry = Entry(
        title=sheet.title,
        harp=facts["Harp"],
        position=facts["Position"],
        key=facts["Song key"],
        form=facts["Form"],
        tempo=facts["Tempo"],
    )
    return json.dumps(asdict(entry), ensure_ascii=False)


def library_of(out: Path) -> bytes | None:
    """The library page of a folder of handouts; None if no lesson has a page."""
    found = list(entries(out))
    return library_page(found) if found else None


def is_library(path: Path) -> bool:
    """Whether a file is a library page made by formsheet."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        return LIBRARY_MARK in file.read(_HEAD)


def entries(out: Path) -> Iterator[Entry]:
    """The lessons in a folder of handouts that have a page."""
    for page in sorted(out.rglob(PAGE)):
        words = _words(page)
        if words is None:
            continue
        links = tuple(
            Link(name, (page.parent / file_name).relative_to(out).as_posix())
            for file_name, name in _LINKS.items()
            if (page.parent / file_name).is_file()
        )
        yield replace(words, links=links)


def _words(page: Path) -> Entry | None:
    """The description in a page; None if formsheet did not make the page."""
    head = _Head()
    with page.open("rb") as file:
        head.feed(file.read(_HEAD).decode(errors="ignore"))
    try:
        return Entry(**json.loads(head.content or "null") or {})
    except (ValueError, TypeError):
        return None


class _Head(HTMLParser):
    """Finds the description in the head of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.content: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Handle an element; called by the parser."""
        found = dict(attrs)
        if tag == "meta" and found.get("name") == NAMED:
            self.content = found.get("content")
