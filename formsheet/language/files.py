"""Lesson files on disk: read, decoded, within limits."""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from pathlib import Path

from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span

#: A lesson is a page or two of text; a file beyond this is something else.
LARGEST_FILE = 100_000  # bytes

#: How the files of word processors begin: zipped or rich text.
_WORD_PROCESSORS = (b"PK\x03\x04", b"{\\rtf", b"\xd0\xcf\x11\xe0")

_LONE_RETURN = re.compile(r"\r(?!\n)")
#: What a terminal obeys and no page can hold.
_CONTROLS = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f]")
_NO_CHARACTERS = "\ufffe\uffff"  # apart, for a set with them takes a third of a millisecond


def read_source(path: Path, name: str) -> tuple[Source | None, list[Problem]]:
    """The file's text under the name by which it is shown, or why it cannot be read."""
    nowhere = Span(Source(name, ""), 0, 0)
    try:
        if not path.is_file():
            return None, [kinds.FileMissing(nowhere, file=name)]
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)  # whatever the file says of its size
        if len(data) > LARGEST_FILE:
            return None, [kinds.FileTooLarge(nowhere, file=name, most=LARGEST_FILE)]
        data = data.removeprefix(BOM_UTF8)
    except OSError as caught:
        return None, [
            kinds.FileUnreadable(nowhere, file=name, reason=caught.strerror or str(caught))
        ]
    if data.startswith(_WORD_PROCESSORS):
        return None, [kinds.FileNotPlain(nowhere, file=name)]
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as caught:
        before = data[: caught.start].decode("utf-8")
        source = Source(name, f"{before}\N{REPLACEMENT CHARACTER}", path)
        place = Span(source, len(before), len(before) + 1)
        return None, [kinds.FileNotUtf8(place, file=name)]
    # A carriage return alone ends a line too; as long as before, so that no place shifts.
    text = _CONTROLS.sub("\N{REPLACEMENT CHARACTER}", _LONE_RETURN.sub("\n", text))
    for character in _NO_CHARACTERS:
        text = text.replace(character, "\N{REPLACEMENT CHARACTER}")
    return Source(name, text, path), []
