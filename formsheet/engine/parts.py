"""The parts of a pack: each yields its files as names and bytes, and does not write them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, TypeAlias

from formsheet.sheet.options import Options

if TYPE_CHECKING:  # the names of the parts are needed without making any
    from formsheet.stages import Examined

#: A file of the pack: path relative to the lesson's folder (with `/`), and content.
Made = tuple[str, bytes]
Part: TypeAlias = "Callable[[Examined, Options], Iterator[Made]]"


def sheet(examined: Examined, options: Options) -> Iterator[Made]:
    """The printed sheet."""
    from formsheet.sheet.make_view import make_view
    from formsheet.sheet.typeset import sheet_pdf

    assert examined.tune
    view = make_view(examined.tune, examined.fits, examined.file_name, options)
    pdf = sheet_pdf(view, page_size=options.page_size, marks=options.marks, large=options.large)
    yield "sheet.pdf", pdf


def text(examined: Examined, options: Options) -> Iterator[Made]:
    """The tab as plain text, for a message."""
    from formsheet.exports.text import text_tab

    assert examined.tune
    yield "tab.txt", text_tab(examined.tune).encode()


def data(examined: Examined, options: Options) -> Iterator[Made]:
    """The tune for other programs."""
    from formsheet.exports.data import lesson_json

    yield "lesson.json", lesson_json(examined).encode()


def notes(examined: Examined, options: Options) -> Iterator[Made]:
    """The tune for a notation program."""
    from formsheet.exports.musicxml.score import musicxml

    assert examined.tune
    yield "tune.musicxml", musicxml(examined.tune).encode()


def page(examined: Examined, options: Options) -> Iterator[Made]:
    """The play-along page."""
    from formsheet.page.page import page_html
    from formsheet.sheet.make_view import make_view

    assert examined.tune
    whole = replace(options, compact=False)  # the page highlights each bar as it is played
    view = make_view(examined.tune, examined.fits, examined.file_name, whole)
    yield "page.html", page_html(examined.tune, view, options.marks)


def clips(examined: Examined, options: Options) -> Iterator[Made]:
    """The sound of the lesson: licks, joins and the tune."""
    from formsheet.sound.clips import clip_files, clips_of

    assert examined.tune
    for clip in clips_of(examined.tune):
        for name, data in clip_files(clip, examined.tune, compressed=options.compressed):
            yield f"clips/{name}", data


def cards(examined: Examined, options: Options) -> Iterator[Made]:
    """Lick cards for the screen."""
    from formsheet.sheet.cards import card_files
    from formsheet.sheet.make_view import make_view

    assert examined.tune
    yield from card_files(make_view(examined.tune, examined.fits, examined.file_name))


#: The page in the folder of all handouts that links to each of them.
LIBRARY = "index.html"

#: All parts, in the order in which they are made.
PARTS: dict[str, Part] = {
    "sheet": sheet,
    "text": text,
    "json": data,
    "notes": notes,
    "page": page,
    "cards": cards,
    "clips": clips,
}

#: How the names of a part's files end: "pdf" is asked for where `sheet` is meant.
ENDINGS: dict[str, str] = {
    "pdf": "sheet",
    "txt": "text",
    "json": "json",
    "musicxml": "notes",
    "html": "page",
    "svg": "cards",
    "png": "cards",
    "wav": "clips",
    "mp3": "clips",
    "mid": "clips",
}
