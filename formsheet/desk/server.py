"""The preview's server: on the loopback address, for reading only, and from memory.

Each address begins with the key. No part of an address is ever made a path: what is served is
looked up by name. The one file that is read from the disk is a handout's PDF, under the name that
the build gives it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from socketserver import TCPServer
from threading import BoundedSemaphore
from urllib.parse import parse_qs, unquote

from formsheet.desk.board import Board
from formsheet.desk.guard import (
    ALWAYS,
    FILE_POLICY,
    LOOPBACK,
    NO_KEY,
    PAGE_POLICY,
    SHEET_POLICY,
    Refusal,
    refusal,
)
from formsheet.desk.key import Key
from formsheet.desk.pages import address, lesson_page, list_page, page_files
from formsheet.pack.preview import preview_files

_TYPES = {
    "html": "text/html; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
    "ttf": "font/ttf",
    "pdf": "application/pdf",
    "txt": "text/plain; charset=utf-8",
}
_MOST_STREAMS = 64  # pages that are told of news at once
_BREATH = 15.0  # seconds after which a stream says that it is still there
_PATIENCE = 10.0  # seconds for which a request may come in


@dataclass(frozen=True)
class Answer:
    """What is sent."""

    body: bytes
    kind: str  # one of `_TYPES`
    policy: str = FILE_POLICY
    status: HTTPStatus = HTTPStatus.OK
    location: str = ""  # where else to look


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
                return Answer(path_of_pdf.read_bytes(), "pdf") if path_of_pdf else None
        return None

    def _pdf(self, name: str) -> Path | None:
        """The PDF of a lesson that is known, where it lies in the folder of handouts itself."""
        if self.board.get(name) is None:
            return None
        path = self.pdf(name)
        inside = Path(os.path.realpath(path)).is_relative_to(os.path.realpath(self.out))
        return path if inside and path.is_file() else None


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server_version, sys_version = "formsheet", ""
    timeout = _PATIENCE
    server: PreviewServer

    def do_GET(self) -> None:
        """Answer."""
        refused = refusal(self.headers, self.server.port)
        if refused:
            self._refuse(refused)
            return
        address, _, query = self.path.partition("?")
        key, slash, path = address.removeprefix("/").partition("/")
        if not self.server.key.fits(key):
            self._let_pass(address.removeprefix("/"))
        elif not slash:
            self._lead_home()
        elif path == "events":
            self._stream(parse_qs(query))
        else:
            self._answer(path)

    do_HEAD = do_GET

    def _let_pass(self, word: str) -> None:
        """Lead on whoever has the passing key; nobody takes it by a look at the head alone."""
        if self.command == "GET" and self.server.key.let_pass(word):
            self._lead_home()
        else:
            self._refuse(NO_KEY)

    def _lead_home(self) -> None:
        home = f"/{self.server.key.text}/"
        self._send(Answer(b"", "txt", status=HTTPStatus.SEE_OTHER, location=home))

    def _answer(self, path: str) -> None:
        try:
            answer = self.server.site.answer(path)
        except OSError:  # the PDF is being put in place, or has gone
            answer = None
        if answer is None:
            self._refuse(Refusal(HTTPStatus.NOT_FOUND, "there is nothing here"))
        else:
            self._send(answer)

    def _wrong_way(self) -> None:
        self._refuse(Refusal(HTTPStatus.METHOD_NOT_ALLOWED, "nothing is taken, only read"))

    do_POST = do_PUT = do_PATCH = do_DELETE = do_OPTIONS = do_TRACE = do_CONNECT = _wrong_way

    def _refuse(self, refused: Refusal) -> None:
        self.close_connection = True
        self._send(Answer(f"{refused.words}\n".encode(), "txt", status=refused.status))

    def _send(self, answer: Answer) -> None:
        self.send_response(answer.status)
        self.send_header("Content-Type", _TYPES[answer.kind])
        self.send_header("Content-Length", str(len(answer.body)))
        if answer.location:
            self.send_header("Location", answer.location)
        if answer.status is HTTPStatus.METHOD_NOT_ALLOWED:
            self.send_header("Allow", "GET, HEAD")
        if self.close_connection:
            self.send_header("Connection", "close")
        self._send_always(answer.policy)
        if self.command != "HEAD":
            self.wfile.write(answer.body)

    def _send_always(self, policy: str) -> None:
        self.send_header("Content-Security-Policy", policy)
        for name, value in ALWAYS.items():
            self.send_header(name, value)
        self.end_headers()

    # ---- News -----------------------------------------------------------------------------

    def _stream(self, query: dict[str, list[str]]) -> None:
        """Server-sent events (WHATWG HTML, 9.2): one for each change, until the page is left."""
        streams = self.server.site.streams
        if not streams.acquire(blocking=False):
            self._refuse(Refusal(HTTPStatus.SERVICE_UNAVAILABLE, "too many pages are open"))
            return
        try:
            self.close_connection = True
            self.send_response(HTTPStatus.OK)
            self.send_header("Content-Type", "text/event-stream")
            self.send_header("Connection", "close")
            self._send_always(FILE_POLICY)
            if self.command != "HEAD":
                self._send_news(self._since(query))
        except OSError:
            return  # the page was left
        finally:
            streams.release()

    def _since(self, query: dict[str, list[str]]) -> int:
        """Up to which change the page knows."""
        seen = self.headers.get("Last-Event-ID") or query.get("since", [""])[0]
        return int(seen[:18]) if seen.isascii() and seen.isdecimal() else -1

    def _send_news(self, since: int) -> None:
        board = self.server.site.board
        self.wfile.write(b"retry: 1000\n\n")
        while not board.closed:
            news = board.wait(since, _BREATH)
            if news is None or board.closed:
                self.wfile.write(b": still here\n\n")
                continue
            since = news.number
            names = list(map(address, news.names))
            data = json.dumps({"number": since, "names": names})
            self.wfile.write(f"id: {since}\ndata: {data}\n\n".encode())

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: the terminal is for the lessons."""


class PreviewServer(ThreadingHTTPServer):
    """Serves a site on the loopback address alone. Port 0: any that is free."""

    daemon_threads = True
    block_on_close = False
    # Elsewhere this would let another program take the same port.
    allow_reuse_address = os.name == "posix"

    def __init__(self, site: Site, port: int) -> None:
        self.site = site
        self.key = Key()
        super().__init__((LOOPBACK, port), _Handler)
        self.port = self.server_port

    def server_bind(self) -> None:
        """Bind, without asking for this machine's name, which can take seconds."""
        TCPServer.server_bind(self)
        self.server_name, self.server_port = LOOPBACK, int(self.server_address[1])

    @property
    def address(self) -> str:
        """Where the browser finds it; not to be shown to anyone else."""
        return f"http://{LOOPBACK}:{self.port}/{self.key.text}/"

    def passing_address(self) -> str:
        """An address that leads there once, and the one before it no more."""
        return f"http://{LOOPBACK}:{self.port}/{self.key.new_passing()}"

    def handle_error(self, request: object, client_address: object) -> None:
        """A connection that broke off is nothing to tell; anything else is a mistake of ours."""
        import sys

        if not isinstance(sys.exception(), OSError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]
