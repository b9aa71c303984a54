"""The parts of a pack: each yields its files as names and bytes, and does not write them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

from formsheet.sheet.options import Options

if TYPE_CHECKING:  # the names of the parts are needed without making any
    from formsheet.stages import Examined

#: A file of the pack: path relative to the lesson's folder (with `/`), and content.
Made = tuple[str, bytes]


@dataclass(frozen=True, slots=True)
class Notice:
    """Something that the teacher should know about a file of the pack, in a sentence."""

    words: str


@dataclass(frozen=True, slots=True)
class Piece:
    """A file that takes long to make: it is kept where the same went into it the last time."""

    name: str  # as in `Made`
    key: str  # equal if, by the same tool, the content is equal
    make: Callable[[], bytes]


Part: TypeAlias = "Callable[[Examined, Options], Iterator[Made | Piece | Notice]]"


def sheet(examined: Examined, options: Options) -> Iterator[Made | Notice]:
    """The printed sheet."""
    from formsheet.sheet.make_view import make_view
    from formsheet.sheet.typeset import set_sheet

    assert examined.tune
    view = make_view(examined.tune, examined.fits, examined.file_name, options, examined.problems)
    made = set_sheet(view, options)
    yield "sheet.pdf", made.pdf
    if made.broken:
        yield Notice("the tune runs over two pages of the sheet: lay them side by side")


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
    from formsheet.sheet.typeset import look_of

    assert examined.tune
    view = make_view(examined.tune, examined.fits, examined.file_name, options)
    yield "page.html", page_html(examined.tune, view, look_of(options))


def clips(examined: Examined, options: Options) -> Iterator[Made | Piece]:
    """The sound of the lesson: licks, joins and the tune."""
    from formsheet.sound.clips import clip_midi, clip_sound, clips_of, contents

    tune = examined.tune
    assert tune
    kind = "wav" if options.wav else "mp3"
    for clip in clips_of(tune):
        made = partial(clip_sound, clip, tune, wav=options.wav)
        yield Piece(f"clips/{clip.name}.{kind}", f"{kind} {contents(clip, tune)}", made)
        yield f"clips/{clip.name}.mid", clip_midi(clip, tune)


def cards(examined: Examined, options: Options) -> Iterator[Made]:
    """Licks for the screen: cards and lower thirds."""
    from formsheet.sheet.cards import card_files
    from formsheet.sheet.make_view import make_view
    from formsheet.sheet.typeset import look_of

    assert examined.tune
    view = make_view(examined.tune, examined.fits, examined.file_name, options)
    yield from card_files(view, look_of(options))


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
