"""What is known of each lesson at the moment; threads put it here and pages read it here."""

from __future__ import annotations

import time
import zlib
from dataclasses import dataclass, field, replace
from enum import Enum
from threading import Condition
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from formsheet.problems.problem import Problem


class Standing(Enum):
    """How it stands with a lesson or a shelf."""

    WAITING = "not read yet"
    IN_ORDER = "in order"
    WARNINGS = "warnings"
    ERRORS = "errors"
    GONE = "gone"


class Pdf(Enum):
    """How it stands with the PDF of a lesson."""

    NONE = "none yet"
    MAKING = "being made"
    MADE = "made"
    FAILED = "failed"


@dataclass(frozen=True)
class Sheet:
    """A sheet for the screen, kept small: hundreds of lessons are open at once."""

    packed: bytes
    number: int  # counts the sheets of one lesson
    made_at: float = field(default_factory=time.time)  # seconds since the epoch

    @property
    def html(self) -> bytes:
        """The sheet's page."""
        return zlib.decompress(self.packed)


@dataclass(frozen=True)
class Known:
    """What is known of a lesson or a shelf."""

    name: str  # its path from the lessons folder, with `/`
    title: str = ""
    standing: Standing = Standing.WAITING
    problems: tuple[Problem, ...] = ()
    sheet: Sheet | None = None  # the last good one
    pdf: Pdf = Pdf.NONE
    pdf_trouble: str = ""

    def with_sheet(self, html: str) -> Known:
        """The same with a new sheet; the old one stays where nothing in it has changed."""
        data = html.encode()
        if self.sheet and self.sheet.html == data:
            return self
        number = self.sheet.number + 1 if self.sheet else 1
        return replace(self, sheet=Sheet(zlib.compress(data, 1), number))


@dataclass(frozen=True)
class News:
    """What has changed since a page was made."""

    number: int
    names: tuple[str, ...]


class Board:
    """All lessons of a folder, each change numbered, so that a page can ask what is new."""

    def __init__(self) -> None:
        self._known: dict[str, Known] = {}
        self._changed: dict[str, int] = {}
        self._number = 0
        self._closed = False
        self._news = Condition()

    def put(self, known: Known) -> None:
        """Put what is known of a lesson in place of what was known."""
        with self._news:
            if self._known.get(known.name) != known:
                self._known[known.name] = known
                self._note(known.name)

    def set_pdf(self, name: str, pdf: Pdf, trouble: str = "") -> None:
        """Note how it stands with a PDF, whatever else has changed meanwhile."""
        with self._news:
            known = self._known.get(name)
            if known and (known.pdf, known.pdf_trouble) != (pdf, trouble):
                self._known[name] = replace(known, pdf=pdf, pdf_trouble=trouble)
                self._note(name)

    def _note(self, name: str) -> None:
        self._number += 1
        self._changed[name] = self._number
        self._news.notify_all()

    def get(self, name: str) -> Known | None:
        """What is known of one; None if there never was one of that name."""
        with self._news:
            return self._known.get(name)

    def all(self) -> tuple[int, list[Known]]:
        """The number of the last change, and what is known of each, in order of their names."""
        with self._news:
            return self._number, [self._known[name] for name in sorted(self._known)]

    def wait(self, since: int, timeout: float) -> News | None:
        """What has changed since a number; waits for it; None after `timeout` seconds without."""
        with self._news:
            if not self._news.wait_for(lambda: self._number > since or self._closed, timeout):
                return None
            names = tuple(name for name, number in self._changed.items() if number > since)
            return News(self._number, names)

    @property
    def closed(self) -> bool:
        """Whether the watch has ended."""
        return self._closed

    def close(self) -> None:
        """End all waiting."""
        with self._news:
            self._closed = True
            self._news.notify_all()
