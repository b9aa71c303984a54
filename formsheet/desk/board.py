"""The current state of each lesson; threads write it here and pages read it here."""

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
    """The state of a lesson or a shelf."""

    WAITING = "not read yet"
    IN_ORDER = "in order"
    WARNINGS = "warnings"
    ERRORS = "errors"
    GONE = "gone"


class Pdf(Enum):
    """The state of the PDF of a lesson."""

    NONE = "none yet"
    MAKING = "being made"
    MADE = "made"
    FAILED = "failed"


@dataclass(frozen=True)
class Sheet:
    """A sheet for the screen, compressed: hundreds of lessons are kept in memory."""

    packed: bytes
    number: int  # version of this lesson's sheet
    made_at: float = field(default_factory=time.time)  # seconds since the epoch

    @property
    def html(self) -> bytes:
        """The sheet as an HTML page."""
        return zlib.decompress(self.packed)


@dataclass(frozen=True)
class Known:
    """The state of a lesson or a shelf, its problems and its sheet."""

    name: str  # path relative to the lessons folder, with `/`
    title: str = ""
    standing: Standing = Standing.WAITING
    problems: tuple[Problem, ...] = ()
    sheet: Sheet | None = None  # the last one without errors
    pdf: Pdf = Pdf.NONE
    pdf_trouble: str = ""

    def with_sheet(self, html: str) -> Known:
        """A copy with a new sheet; an identical sheet keeps its number."""
        data = html.encode()
        if self.sheet and self.sheet.html == data:
            return self
        number = self.sheet.number + 1 if self.sheet else 1
        return replace(self, sheet=Sheet(zlib.compress(data, 1), number))


@dataclass(frozen=True)
class News:
    """The changes since a page was made."""

    number: int
    names: tuple[str, ...]


class Board:
    """All lessons of a folder. Changes are numbered, so that a page can ask for newer ones.

    Thread-safe.
    """

    def __init__(self) -> None:
        self._known: dict[str, Known] = {}
        self._changed: dict[str, int] = {}
        self._number = 0
        self._closed = False
        self._news = Condition()

    def put(self, known: Known) -> None:
        """Replace the state of a lesson."""
        with self._news:
            if self._known.get(known.name) != known:
                self._known[known.name] = known
                self._note(known.name)

    def set_pdf(self, name: str, pdf: Pdf, trouble: str = "") -> None:
        """Set the state of a lesson's PDF only; other threads may change the rest."""
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
        """The state of one lesson; None if there never was one of that name."""
        with self._news:
            return self._known.get(name)

    def all(self) -> tuple[int, list[Known]]:
        """The number of the last change, and the state of each lesson, sorted by name."""
        with self._news:
            return self._number, [self._known[name] for name in sorted(self._known)]

    def wait(self, since: int, timeout: float) -> News | None:
        """Wait for changes after number `since`; None after `timeout` seconds without one."""
        with self._news:
            if not self._news.wait_for(lambda: self._number > since or self._closed, timeout):
                return None
            names = tuple(name for name, number in self._changed.items() if number > since)
            return News(self._number, names)

    @property
    def closed(self) -> bool:
        """Whether the board was closed."""
        return self._closed

    def close(self) -> None:
        """Close the board; all waiting calls return."""
        with self._news:
            self._closed = True
            self._news.notify_all()
