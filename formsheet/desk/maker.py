"""Make handouts in the background, one at a time, in a separate process.

Typesetting keeps a core busy for a while; in this process it would delay the preview.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from queue import Empty, SimpleQueue
from threading import Event as Flag
from threading import Lock, Thread
from time import time_ns
from typing import TYPE_CHECKING

from formsheet.desk.board import Board, Pdf
from formsheet.desk.folder import Found
from formsheet.desk.telling import Teller
from formsheet.engine.event import Event, Outcome
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.sheet.options import Options

if TYPE_CHECKING:
    from concurrent.futures import ProcessPoolExecutor

SHEET = "sheet.pdf"
_GIVES_WAY = 10  # niceness of the worker
_CHECK = 0.5  # interval in seconds at which an idle maker checks whether to stop


@dataclass
class Maker:
    """Makes requested handouts; a lesson requested again before its turn is made once."""

    home: Path
    out: Path
    parts: Sequence[str]
    options: Options
    board: Board
    teller: Teller
    _asked: SimpleQueue[str] = field(default_factory=SimpleQueue)
    _waiting: dict[str, Found] = field(default_factory=dict)
    _lock: Lock = field(default_factory=Lock)
    _stop: Flag = field(default_factory=Flag)
    _pool: ProcessPoolExecutor | None = None

    def ask(self, found: Found) -> None:
        """Request the handout of a lesson."""
        with self._lock:
            is_new = found.name not in self._waiting
            self._waiting[found.name] = found
        if is_new:
            self._asked.put(found.name)

    def target(self, found: Found) -> Target:
        """The target for a lesson, the same as in `build` of the folder."""
        folder = (self.out / found.name).with_suffix("")
        return Target(found.path, self.home, folder, tuple(self.parts), self.options)

    def start(self) -> None:
        """Start the thread."""
        self._thread = Thread(target=self._run, name="maker", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Stop; the current handout is finished or discarded, never left half-made."""
        self._stop.set()
        self._thread.join(timeout=10)

    def _run(self) -> None:
        tool = Tool()
        try:
            while not self._stop.is_set():
                try:
                    name = self._asked.get(timeout=_CHECK)
                except Empty:
                    continue
                with self._lock:
                    found = self._waiting.pop(name)
                self._make(found, tool)
        finally:
            if self._pool:
                self._pool.shutdown(cancel_futures=True)

    def _make(self, found: Found, tool: Tool) -> None:
        try:
            event = self._event(found, tool)
        except OSError as caught:  # of the plan; `make` reports its own errors
            event = Event(self.target(found), Outcome.FAILED, reason=str(caught))
        match event.outcome:
            case Outcome.BUILT | Outcome.CURRENT:
                self.board.set_pdf(found.name, Pdf.MADE)
                if event.files:
                    self.teller.made(found, event.files)
                    self._renew_library()
            case Outcome.WRONG:  # changed in the meantime; the watch reports that
                self.board.set_pdf(found.name, Pdf.NONE)
            case Outcome.FAILED:
                self.board.set_pdf(found.name, Pdf.FAILED, event.reason)
                self.teller.failed(found, event.reason)

    def _renew_library(self) -> None:
        """Write the page that lists all handouts, as `build` does at the end."""
        if "page" in self.parts:
            from formsheet.engine.library import renew_library

            renew_library(self.out)

    def _event(self, found: Found, tool: Tool) -> Event:
        from formsheet.engine.plan import plan

        planned = plan([self.target(found)], tool)
        if not planned.stale:
            return Event(planned.current[0], Outcome.CURRENT)
        self.board.set_pdf(found.name, Pdf.MAKING)
        return self._made(planned.stale[0], tool)

    def _made(self, target: Target, tool: Tool) -> Event:
        from concurrent.futures import BrokenExecutor

        from formsheet.engine.make import make

        if self._pool is None:
            self._pool = _pool()
        try:
            return self._pool.submit(make, target, tool, started_ns=time_ns()).result()
        except BrokenExecutor:
            self._pool = None
            return Event(target, Outcome.FAILED, reason="the worker process was killed")


def _pool() -> ProcessPoolExecutor:
    """One worker, started from a clean process, since this one has threads."""
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    return ProcessPoolExecutor(1, get_context("spawn"), initializer=_begin)


def _begin() -> None:
    """Set up the worker: at low priority, so that the preview stays fast."""
    from formsheet.engine.helper import begin

    begin()
    if hasattr(os, "nice"):
        os.nice(_GIVES_WAY)
