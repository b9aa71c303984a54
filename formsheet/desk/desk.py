"""The desk: watch, background builds and preview, started and stopped together."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from threading import Event as Flag
from threading import Thread

from formsheet.desk.board import Board
from formsheet.desk.changes import feed
from formsheet.desk.folder import Found
from formsheet.desk.maker import SHEET, Maker
from formsheet.desk.server import PreviewServer
from formsheet.desk.site import Site
from formsheet.desk.telling import Teller
from formsheet.desk.watch import Watch
from formsheet.sheet.options import Options
from formsheet.source import shown_name

_TURN = 0.5  # seconds; the longest step of the watch, so that `stop` is seen


class Desk:
    """Watch, background builds and preview of one lessons folder; a context manager."""

    def __init__(
        self, home: Path, out: Path, parts: Sequence[str], options: Options, port: int,
        teller: Teller,
    ) -> None:  # fmt: skip
        self.board = Board()
        self._stop = Flag()
        self._maker = Maker(home, out, parts, options, self.board, teller)
        self.watch = Watch(home, self.board, teller, self._maker.ask, options)
        site = Site(self.board, shown_name(home), self._pdf, out)
        self.server = PreviewServer(site, port)
        self._home = home
        self._threads = [
            Thread(target=self.server.serve_forever, name="server", daemon=True),
            Thread(
                target=feed, args=(home, self._stop, self.watch.put_batch), name="changes",
                daemon=True,
            ),
        ]  # fmt: skip

    def __enter__(self) -> Desk:
        for thread in self._threads:
            thread.start()
        self._maker.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._stop.set()
        self.board.close()
        self.server.shutdown()
        self.server.server_close()
        self._maker.stop()
        for thread in self._threads:
            thread.join(timeout=2)

    def work(self, stop: Flag | None = None) -> None:
        """Process changes until `stop` is set, or for ever."""
        while not (stop and stop.is_set()):
            self.watch.step(_TURN)

    def _pdf(self, name: str) -> Path:
        found = Found(name, self._home / name, (0, 0, 0))
        return self._maker.target(found).folder / SHEET
