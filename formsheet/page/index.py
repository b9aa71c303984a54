"""The library page: a plain list of all lessons, so the folder can be put on any web server."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import quote

from formsheet.page.inline import faces_css, policy, sources
from formsheet.sheet.sheet_words import LANGUAGE
from formsheet.sheet.templating import environment


@dataclass(frozen=True, slots=True)
class Link:
    """A file of a lesson."""

    name: str  # as the student reads it: "Play along"
    path: str  # relative to the library page, with `/`


@dataclass(frozen=True, slots=True)
class Entry:
    """A lesson of the library, as printed texts."""

    title: str
    harp: str  # "C", "low F"
    position: str  # "2nd"
    key: str  # of the song
    form: str
    tempo: str  # "104 beats a minute"
    links: tuple[Link, ...] = ()


def library_page(entries: Iterable[Entry]) -> bytes:
    """The list of lessons, sorted by title; equal entries give equal bytes."""
    style = "\n".join([faces_css(), sources("index.css")])
    listed = [
        (entry, [(link.name, quote(link.path, errors="surrogateescape")) for link in entry.links])
        for entry in sorted(entries, key=lambda e: (e.title.casefold(), e.harp, e.key))
    ]
    context = {
        "language": LANGUAGE,
        "entries": listed,
        "style": style,
        "policy": policy(style),
    }
    return environment().get_template("index.html").render(context).encode()
