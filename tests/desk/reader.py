"""A preview with its server, and a reader that asks it."""

from __future__ import annotations

import socket
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from threading import Thread

from formsheet.desk.board import Board, Known, Standing
from formsheet.desk.server import PreviewServer
from formsheet.desk.site import Site
from tests.helpers import problems_of

HOSTILE = "<script>harm()</script>.lesson"
SECRET = "not for you"


class Reader:
    """Asks a server that serves one good lesson, one broken and one hostile."""

    def __init__(self, folder: Path) -> None:
        self.board = Board()
        self.board.put(Known("a.lesson", "Porch", Standing.IN_ORDER).with_sheet("<p>A sheet</p>"))
        broken = problems_of('title <b>bold</b>\nlick "<i>" on I\n  q 4x <u>\n')
        self.board.put(Known("winter/b.lesson", "<b>", Standing.ERRORS, broken))
        self.board.put(Known(HOSTILE, "</title><script>harm()</script>", Standing.WAITING))
        self.out = folder / "handouts"
        (self.out / "a").mkdir(parents=True)
        (self.out / "a" / "sheet.pdf").write_bytes(b"%PDF-a")
        (folder / "secret.txt").write_text(SECRET, encoding="utf-8")
        site = Site(self.board, "lessons", self._pdf, self.out)
        self.server = PreviewServer(site, 0)
        self.key = self.server.key.text
        self.host = f"127.0.0.1:{self.server.port}"
        self._thread = Thread(target=self.server.serve_forever, args=(0.05,), daemon=True)
        self._thread.start()

    def _pdf(self, name: str) -> Path:
        return (self.out / name).with_suffix("") / "sheet.pdf"

    def ask(self, address: str, method: str = "GET", **headers: str) -> HTTPResponse:
        """The answer to an address behind the key."""
        return self.ask_without_key(f"/{self.key}{address}", method, **headers)

    def ask_without_key(self, address: str, method: str = "GET", **headers: str) -> HTTPResponse:
        connection = HTTPConnection("127.0.0.1", self.server.port, timeout=5)
        plain = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, address, headers=plain)
        response = connection.getresponse()
        response.text = response.read().decode("utf-8", "replace")  # type: ignore[attr-defined]
        connection.close()
        return response

    def status(self, address: str, method: str = "GET", **headers: str) -> int:
        return self.ask(address, method, **headers).status

    def text(self, address: str) -> str:
        text: str = self.ask(address).text  # type: ignore[attr-defined]
        return text

    def raw(self, *lines: str) -> str:
        """The answer to a request written by hand."""
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=5) as wire:
            wire.sendall("\r\n".join([*lines, "", ""]).encode())
            wire.shutdown(socket.SHUT_WR)
            data = b""
            while more := wire.recv(65536):
                data += more
        return data.decode("utf-8", "replace")

    def close(self) -> None:
        self.board.close()
        self.server.shutdown()
        self.server.server_close()
        self._thread.join(5)
