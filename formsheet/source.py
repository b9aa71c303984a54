"""The text of a file, and places in it.

A place is an offset into the text; line and column are computed only when they are shown.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from functools import cached_property
from itertools import accumulate
from pathlib import Path
from typing import NamedTuple


def shown_name(path: Path) -> str:
    """A path that is safe to print: control characters and undecodable bytes are replaced."""
    return "".join("\N{REPLACEMENT CHARACTER}" if _unprintable(c) else c for c in str(path))


def _unprintable(char: str) -> bool:
    """Whether a character is a control, a line separator, a change of direction, or a surrogate.

    A lone surrogate is how Python decodes a byte of a path that is not valid text.
    """
    return (
        char < " "
        or "\x7f" <= char <= "\x9f"
        or "\u2028" <= char <= "\u202e"
        or "\u2066" <= char <= "\u2069"
        or "\ud800" <= char <= "\udfff"
    )


# Patterns as text: most files have no hidden characters.
_HIDDEN = (
    "[\u00ad\u180e\u200b\u2060-\u2064\ufeff]"  # soft hyphens, spaces of no width
    # Joiners shape letters and signs beside them; beside plain marks and spaces they do nothing.
    r"|(?<![^\x00-\x7f\s’′“”„«»])[\u200c\u200d](?![^\x00-\x7f\s’′“”„«»])((?<![A-Za-z].)|(?![A-Za-z]))"
)
_PLAIN = dict.fromkeys(map(ord, "\u2010\u2011\u2012\ufe63\uff0d"), "-")  # hyphens
_PLAIN |= dict.fromkeys(map(ord, "\u00a0\u2007\u202f"), " ")  # spaces that keep a line together


def read_text(written: str) -> tuple[str, tuple[int, ...]]:
    """What is read of a written text, and the offsets in it before which something was hidden.

    Hyphens of other kinds are read as `-`, hard spaces as spaces; soft hyphens and spaces of no
    width are not read at all. Line ends stay where they are.
    """
    if written.isascii():
        return written, ()
    plain = written.translate(_PLAIN)
    found = [match.start() for match in re.finditer(_HIDDEN, plain)]
    hidden = tuple(at - count for count, at in enumerate(found))
    return re.sub(_HIDDEN, "", plain) if found else plain, hidden


class Source:
    """The text of a file, and the name by which messages call it.

    `written` is the content of the file, `text` what is read of it (`read_text`): offsets are
    places in `text`, columns are places in the file.
    """

    def __init__(self, name: str, written: str, path: Path | None = None) -> None:
        self.name = name
        self.written = written
        self.path = path

    def __repr__(self) -> str:
        return f"Source({self.name!r})"

    @cached_property
    def _as_read(self) -> tuple[str, tuple[int, ...]]:
        return read_text(self.written)

    @cached_property
    def text(self) -> str:
        """The text without its hidden characters."""
        return self._as_read[0]

    @cached_property
    def _line_starts(self) -> list[int]:
        lines = self.text.split("\n")
        return list(accumulate((len(line) + 1 for line in lines[:-1]), initial=0))

    def line_column(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset in the file as it is written, both counted from 1."""
        line, start = self.line_start(offset)
        hidden = self._as_read[1]
        before = bisect_right(hidden, offset) - bisect_left(hidden, start) if hidden else 0
        return line, offset - start + before + 1

    def line_start(self, offset: int) -> tuple[int, int]:
        """The line of an offset, counted from 1, and the offset at which that line begins."""
        line = bisect_right(self._line_starts, offset)
        return line, self._line_starts[line - 1]

    def line_text(self, line: int) -> str:
        """The text of a line counted from 1, without its line end."""
        start = self._line_starts[line - 1]
        end = self._line_starts[line] - 1 if line < len(self._line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r")

    def written_range(self, start: int, end: int) -> tuple[int, int]:
        """The range of `written` for one of `text`, hidden characters on its edges left out."""
        hidden = self._as_read[1]
        first = start + bisect_right(hidden, start)
        return first, max(first, end + bisect_left(hidden, end))

    @property
    def end(self) -> Span:
        """The empty span after the last visible character."""
        at = len(self.text.rstrip())
        return Span(self, at, at)


class Span(NamedTuple):
    """A range of a source in characters, from `start` up to but not including `end`."""

    source: Source
    start: int
    end: int

    @property
    def text(self) -> str:
        """The text under the span."""
        return self.source.text[self.start : self.end]

    @property
    def line(self) -> int:
        """Line of the first character, from 1."""
        return self.source.line_column(self.start)[0]

    @property
    def column(self) -> int:
        """Column of the first character, from 1."""
        return self.source.line_column(self.start)[1]

    @property
    def place(self) -> tuple[str, int, int]:
        """File name, line and column, for sorting and showing."""
        return (self.source.name, *self.source.line_column(self.start))

    def to(self, other: Span) -> Span:
        """From the start of this span to the end of another."""
        return Span(self.source, self.start, max(self.end, other.end))


class Word(NamedTuple):
    """A word of a source, quotes and the like taken off, with its place."""

    text: str
    span: Span
