"""The server of the preview: loopback only, read-only, from memory.

Each address begins with the key; `site.py` answers the rest of it.
"""

from __future__ import annotations

import json
import os
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from socketserver import TCPServer
from urllib.parse import parse_qs, quote

from formsheet.desk.guard import ALWAYS, FILE_POLICY, LOOPBACK, NO_KEY, Refusal, refusal
from formsheet.desk.key import Key
from formsheet.desk.pages import address
from formsheet.desk.site import Answer, Site

_TYPES = {
    "html": "text/html; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
    "ttf": "font/ttf",
    "pdf": "application/pdf",
    "txt": "text/plain; charset=utf-8",
}
_BREATH = 15.0  # seconds between keep-alive messages of an idle stream
_PATIENCE = 10.0  # timeout in seconds for reading a request


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server_version, sys_version = "formsheet", ""
    timeout = _PATIENCE
    server: PreviewServer

    def do_GET(self) -> None:
        """Answer a request."""
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
        """Redirect a GET that carries the one-time token. HEAD does not use it up."""
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
        except OSError:  # the PDF is just being replaced, or was removed
            answer = None
        if answer is None:
            self._refuse(Refusal(HTTPStatus.NOT_FOUND, "not found"))
        else:
            self._send(answer)

    def _wrong_way(self) -> None:
        self._refuse(Refusal(HTTPStatus.METHOD_NOT_ALLOWED, "this server is read-only"))

    do_POST = do_PUT = do_PATCH = do_DELETE = do_OPTIONS = do_TRACE = do_CONNECT = _wrong_way

    def _refuse(self, refused: Refusal) -> None:
        self.close_connection = True
        self._send(Answer(f"{refused.words}\n".encode(), "txt", status=refused.status))

    def _send(self, answer: Answer) -> None:
        self.send_response(answer.status)
        self.send_header("Content-Type", _TYPES[answer.kind])
        self.send_header("Content-Length", str(len(answer.body)))
        if answer.saved_as:  # RFC 6266 and RFC 8187
            name = quote(answer.saved_as, safe="", errors="replace")
            self.send_header("Content-Disposition", f"inline; filename*=UTF-8''{name}")
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
        """Send an event (WHATWG HTML, 9.2) for each change, until the page is closed."""
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
            return  # the page was closed
        finally:
            streams.release()

    def _since(self, query: dict[str, list[str]]) -> int:
        """The number of the last change that the page has."""
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
        """Log nothing: the terminal shows the lessons."""


class PreviewServer(ThreadingHTTPServer):
    """Serves a site on the loopback address only. Port 0 means any free port."""

    daemon_threads = True
    block_on_close = False
    # On other systems this would let another program take the same port.
    allow_reuse_address = os.name == "posix"

    def __init__(self, site: Site, port: int) -> None:
        self.site = site
        self.key = Key()
        super().__init__((LOOPBACK, port), _Handler)
        self.port = self.server_port

    def server_bind(self) -> None:
        """Bind without looking up the host name, which can take seconds."""
        TCPServer.server_bind(self)
        self.server_name, self.server_port = LOOPBACK, int(self.server_address[1])

    @property
    def address(self) -> str:
        """The address with the key: a secret."""
        return f"http://{LOOPBACK}:{self.port}/{self.key.text}/"

    def passing_address(self) -> str:
        """An address that redirects to `address` once; replaces the previous one."""
        return f"http://{LOOPBACK}:{self.port}/{self.key.new_passing()}"

    def handle_error(self, request: object, client_address: object) -> None:
        """Ignore broken connections; print anything else, since it is a bug."""
        import sys

        if not isinstance(sys.exception(), OSError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]
