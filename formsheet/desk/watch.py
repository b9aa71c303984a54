"""The watch: changed files are read again; success is shown at once, errors after a moment.

Some editors save by emptying a file and filling it, or by writing a temporary file and renaming
it. So a file that has errors or is missing is reported only after `PATIENCE` seconds without a
change; a file without errors is shown as soon as it is read.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from queue import Empty, SimpleQueue
from time import monotonic
from typing import TYPE_CHECKING

from formsheet.desk.board import Board, Known, Standing
from formsheet.desk.changes import Batch
from formsheet.desk.folder import Found, files_in
from formsheet.desk.telling import Teller
from formsheet.sheet.options import Options

if TYPE_CHECKING:
    from formsheet.lesson.shelves import Shelves

#: Seconds without a change before errors, or the removal of a file, are reported.
PATIENCE = 0.3

Take = Callable[[Found], None]


class Watch:
    """The files of a lessons folder, each read again when it changes.

    `put_batch` may be called from any thread; everything else runs in the thread that calls
    `step`.
    """

    def __init__(
        self, home: Path, board: Board, teller: Teller, in_order: Take, options: Options
    ) -> None:
        self._home = home
        self._board = board
        self._teller = teller
        self._in_order = in_order  # called with each lesson that has no errors
        self._options = options
        self._inbox: SimpleQueue[Batch] = SimpleQueue()
        self._files: dict[str, Found] = {}
        self._rests_on: dict[str, frozenset[str]] = {}  # name -> real paths of its shelves
        self._changed_at: dict[str, float] = {}  # name -> time of its unread change
        self._due: dict[str, float] = {}  # name -> time at which to read it
        self._unread: dict[str, None] = {}  # names not read yet, in order
        self._begun = self._away = False
        self._shelves: Shelves | None = None

    def put_batch(self, batch: Batch) -> None:
        """Queue a batch of changes."""
        self._inbox.put(batch)

    def step(self, longest: float) -> None:
        """Wait at most `longest` seconds for something to do, and do one thing."""
        try:
            self._take(self._inbox.get(timeout=self._wait(longest)))
            while True:
                self._take(self._inbox.get_nowait())
        except Empty:
            pass
        self._read_next()

    def _wait(self, longest: float) -> float:
        """Seconds until the next file is due; above 0, as the queue requires."""
        if self._unread:
            return 0.0001
        soonest = min(self._due.values(), default=monotonic() + longest)
        return max(0.0001, min(longest, soonest - monotonic()))

    # ---- What has changed -----------------------------------------------------------------

    def _take(self, batch: Batch) -> None:
        if batch is None:
            self._lose_folder()
            return
        if self._away:
            self._away = False
            self._teller.folder_back()
        root = os.path.realpath(self._home) + os.sep
        named = {path.removeprefix(root).replace(os.sep, "/") for path in batch}
        before, self._files = self._files, files_in(self._home)
        changed = {name for name in named if name in self._files}
        changed |= {
            name
            for name, found in self._files.items()
            if name not in before or before[name].stamp != found.stamp
        }
        gone = before.keys() - self._files.keys()
        moved = {os.path.realpath(root + name) for name in changed | gone}
        if changed or gone:
            self._shelves = None  # read them again
        changed |= {
            name for name, shelves in self._rests_on.items()
            if name in self._files and not shelves.isdisjoint(moved)
        }  # fmt: skip
        self._note(changed, gone)

    def _note(self, changed: set[str], gone: set[str]) -> None:
        now = monotonic()
        for name in sorted(changed):
            known = self._board.get(name)
            if known is None:
                self._board.put(Known(name))
            if known is None and not self._begun:
                self._unread[name] = None
            elif name not in self._unread:
                self._changed_at[name] = self._due[name] = now
        for name in gone:
            self._unread.pop(name, None)
            self._changed_at[name], self._due[name] = now, now + PATIENCE

    def _lose_folder(self) -> None:
        if not self._away:
            self._away = True
            self._teller.folder_gone()
        self._note(set(), set(self._files))
        self._files = {}

    # ---- Reading --------------------------------------------------------------------------

    def _read_next(self) -> None:
        """Read one file: changed ones first, then those never read."""
        now = monotonic()
        ready = [name for name, due in self._due.items() if due <= now]
        if ready:
            name = min(ready, key=lambda name: self._due[name])
            del self._due[name]
            self._read_changed(name)
        elif self._unread:
            name = next(iter(self._unread))
            del self._unread[name]
            self._board.put(self._look(self._files[name]))
        if not self._unread and not self._begun and self._files:
            self._begun = True
            self._teller.first_look(self._board.all()[1])

    def _read_changed(self, name: str) -> None:
        since = self._changed_at[name]
        quiet_at = since + PATIENCE
        if name not in self._files:
            self._drop(name)
            return
        known = self._look(self._files[name])
        if known.standing is Standing.ERRORS and monotonic() < quiet_at:
            self._due[name] = quiet_at
            return
        self._board.put(known)
        self._teller.looked(known, monotonic() - since)

    def _look(self, found: Found) -> Known:
        from formsheet.desk.look import look
        from formsheet.lesson.shelves import Shelves

        if self._shelves is None:
            self._shelves = Shelves(self._home)
        before = self._board.get(found.name) or Known(found.name)
        seen = look(found, before, self._shelves, self._options)
        self._rests_on[found.name] = seen.shelves
        if found.is_lesson and seen.known.standing is not Standing.ERRORS:
            self._in_order(found)
        return seen.known

    def _drop(self, name: str) -> None:
        self._rests_on.pop(name, None)
        known = self._board.get(name)
        if known and known.standing is not Standing.GONE:
            self._board.put(replace(known, standing=Standing.GONE, problems=()))
            self._teller.gone(name)
