"""What the preview serves at each address; the key is already removed.

No part of an address is used as a path: everything is looked up by name. The only files read from
the disk are the PDFs of handouts, under the names that the build gives them.
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
from formsheet.sheet.preview import preview_files

_MOST_STREAMS = 64  # open pages that receive events


@dataclass(frozen=True)
class Answer:
    """An answer to a request."""

    body: bytes
    kind: str  # suffix of such a file
    policy: str = FILE_POLICY
    status: HTTPStatus = HTTPStatus.OK
    location: str = ""  # of a redirect
    saved_as: str = ""  # file name for saving


@dataclass
class Site:
    """Everything that the server serves."""

    board: Board
    folder: str  # the lessons folder, as the teacher named it
    pdf: Callable[[str], Path]  # path of the PDF of a lesson
    out: Path  # the folder of handouts, which holds every PDF
    streams: BoundedSemaphore = field(default_factory=lambda: BoundedSemaphore(_MOST_STREAMS))

    @cached_property
    def _own(self) -> dict[str, bytes]:
        return preview_files() | page_files()

    def answer(self, path: str) -> Answer | None:
        """The answer to an address without its key; None if not found."""
        if not path:
            page = list_page(self.board, self.folder, lambda name: self._pdf(name) is not None)
            return Answer(page.encode(), "html", PAGE_POLICY)
        top, _, rest = path.partition("/")
        if "/" in rest:  # a name is one segment
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
        """The PDF of a known lesson; None if it is not inside the folder of handouts."""
        if self.board.get(name) is None:
            return None
        path = self.pdf(name)
        inside = Path(os.path.realpath(path)).is_relative_to(os.path.realpath(self.out))
        return path if inside and path.is_file() else None
