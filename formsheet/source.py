"""The text of a file, and places in it.

A place is an offset into the text; line and column are computed only when they are shown.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
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


@dataclass(frozen=True, eq=False)
class Source:
    """The text of a file, and the name by which messages call it."""

    name: str
    text: str = field(repr=False)
    path: Path | None = field(default=None, repr=False)

    @cached_property
    def _line_starts(self) -> list[int]:
        lines = self.text.split("\n")
        return list(accumulate((len(line) + 1 for line in lines[:-1]), initial=0))

    def line_column(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1."""
        line = bisect_right(self._line_starts, offset)
        return line, offset - self._line_starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """The text of a line counted from 1, without its line end."""
        start = self._line_starts[line - 1]
        end = self._line_starts[line] - 1 if line < len(self._line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r")

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
