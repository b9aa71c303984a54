"""What the preview serves, by its address behind the key.

No part of an address is ever made a path: what is served is looked up by name. The one file that
is read from the disk is a handout's PDF, under the name that the build gives it.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from http import HTTPStatus
from pathlib import Path
from threading import BoundedSemaphore
from urllib.parse import unquote

from formsheet.desk.board import Board
from formsheet.desk.guard import FILE_POLICY, PAGE_POLICY, SHEET_POLICY
from formsheet.desk.pages import lesson_page, list_page, page_files
from formsheet.pack.preview import preview_files

_MOST_STREAMS = 64  # pages that are told of news at once


@dataclass(frozen=True)
class Answer:
    """What is sent."""

    body: bytes
    kind: str  # the ending of such a file
    policy: str = FILE_POLICY
    status: HTTPStatus = HTTPStatus.OK
    location: str = ""  # where else to look
    saved_as: str = ""  # the name under which a browser keeps it


@dataclass
class Site:
    """All that the server serves."""

    board: Board
    folder: str  # the lessons folder, as the teacher named it
    pdf: Callable[[str], Path]  # where the PDF of a lesson lies
    out: Path  # below which every PDF lies
    streams: BoundedSemaphore = field(default_factory=lambda: BoundedSemaphore(_MOST_STREAMS))

    @cached_property
    def _own(self) -> dict[str, bytes]:
        return preview_files() | page_files()

    def answer(self, path: str) -> Answer | None:
        """The answer to an address, from behind the key; None if there is nothing there."""
        if not path:
            page = list_page(self.board, self.folder, lambda name: self._pdf(name) is not None)
            return Answer(page.encode(), "html", PAGE_POLICY)
        top, _, rest = path.partition("/")
        if "/" in rest:  # a name is one part of an address
            return None
        name = unquote(rest, errors="surrogateescape")
        match top:
            case "own" if name in self._own:
                return Answer(self._own[name], name.rsplit(".", 1)[-1])
            case "lesson":
                has_pdf = self._pdf(name) is not None
                found = lesson_page(self.board, self.folder, name, has_pdf=has_pdf)
                return Answer(found.encode(), "html", PAGE_POLICY) if found else None
            case "sheet":
                known = self.board.get(name)
                sheet = known.sheet if known else None
                return Answer(sheet.html, "html", SHEET_POLICY) if sheet else None
            case "pdf":
                path_of_pdf = self._pdf(name)
                if path_of_pdf:
                    saved_as = f"{Path(name).stem}.pdf"
                    return Answer(path_of_pdf.read_bytes(), "pdf", saved_as=saved_as)
        return None

    def _pdf(self, name: str) -> Path | None:
        """The PDF of a lesson that is known, where it lies in the folder of handouts itself."""
        if self.board.get(name) is None:
            return None
        path = self.pdf(name)
        inside = Path(os.path.realpath(path)).is_relative_to(os.path.realpath(self.out))
        return path if inside and path.is_file() else None
