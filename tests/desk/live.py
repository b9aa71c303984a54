"""A desk at work in the test's own process."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from threading import Event, Thread
from time import monotonic, sleep

from formsheet.desk.board import Standing
from formsheet.desk.desk import Desk
from formsheet.sheet.options import Options
from tests.desk.told import GOOD, Told

LONGEST = 20.0  # seconds, on a machine that is busy with other things


class Live:
    """A desk at work in this process; ending it waits for the parts that are being made."""

    def __init__(self, folder: Path, parts: Sequence[str] = ("text",)) -> None:
        self.home, self.out = folder / "lessons", folder / "handouts"
        self.home.mkdir()
        (self.home / "a.lesson").write_text(GOOD, encoding="utf-8")
        sleep(0.1)  # what was written this very moment counts as in the making
        self.told = Told()
        self.desk = Desk(self.home, self.out, parts, Options(), 0, self.told)
        self._stop = Event()
        self._thread = Thread(target=self.desk.work, args=(self._stop,), daemon=True)

    def __enter__(self) -> Live:
        self.desk.__enter__()
        self._thread.start()
        self.until(lambda: any(line.startswith("first look at") for line in self.told.lines))
        sleep(0.3)  # the watch of the system begins
        return self

    def __exit__(self, *_: object) -> None:
        self._stop.set()
        self._thread.join(5)
        self.desk.__exit__()

    def until(self, true: Callable[[], bool]) -> None:
        end = monotonic() + LONGEST
        while not true():
            assert monotonic() < end, self.told.lines
            sleep(0.01)

    @property
    def address(self) -> str:
        """Of the preview, without the last `/`."""
        return self.desk.server.address.rstrip("/")

    def save(self, text: str, name: str = "a.lesson") -> None:
        (self.home / name).write_text(text, encoding="utf-8")

    def standing(self, name: str = "a.lesson") -> Standing | None:
        known = self.desk.board.get(name)
        return known.standing if known else None
