"""A page in the browser, with a clock that the test sets going and a record of what sounds."""

from __future__ import annotations

from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import numpy.typing as npt
from playwright.sync_api import ConsoleMessage, Page, Request

from formsheet.engine.parts import page
from formsheet.sheet.options import Options
from tests.helpers import examined

LISTENING = Path(__file__).parent / "listening.js"


@cache
def page_of(text: str) -> bytes:
    """The play-along page of a lesson's text."""
    ((_, data),) = page(examined(text), Options())
    return data


#: Seconds of the page's clock at which a test begins: later than any page needs to load.
_LOADED = 60


@dataclass(frozen=True)
class Heard:
    """A sound as it was handed to the audio clock, in seconds of that clock."""

    when: float
    until: float
    hertz: float | None
    kind: str  # "reed", or the wave of an oscillator, or "noise"


class Window:
    """A page, opened from the disk."""

    def __init__(self, opened: Page, path: Path, *, by_clock: bool) -> None:
        self.page = opened
        self.address = path.as_uri()
        self.complaints: list[str] = []  # whatever the page should not do
        self.by_clock = by_clock
        opened.on("console", self._listen)
        opened.on("pageerror", lambda error: self.complaints.append(str(error)))
        opened.on("request", self._watch)
        opened.on("dialog", lambda dialog: self.complaints.append(dialog.message))
        if by_clock:
            opened.clock.install(time=0)
            opened.add_init_script(path=LISTENING)
        opened.goto(self.address)
        if by_clock:  # else the clock runs on by itself between two calls of `run`
            opened.clock.pause_at(_LOADED)

    def _listen(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.complaints.append(message.text)

    def _watch(self, request: Request) -> None:
        if request.url != self.address and not request.url.startswith(
            ("data:font/", "data:audio/")
        ):
            self.complaints.append(f"asked for {request.url[:80]}")

    @contextmanager
    def clock_running(self) -> Iterator[None]:
        """Let the clock of the page run by itself; then stop it, a minute later by that clock."""
        if not self.by_clock:
            yield
            return
        self.page.clock.resume()
        yield
        self.page.clock.pause_at(self.page.evaluate("Date.now()") / 1000 + _LOADED)

    def run(self, seconds: float) -> None:
        """Let the clock of the page run so far."""
        self.page.clock.run_for(round(seconds * 1000))

    def play(self, seconds: float) -> None:
        """Press Play and let the clock run."""
        self.page.locator("#play").click()
        self.run(seconds)

    def heard(self, kind: str = "reed") -> list[Heard]:
        """What was started so far, in order of time."""
        found = [
            Heard(each["when"], each["until"], each["hertz"], each["kind"])
            for each in self.page.evaluate("heard")
            if each["kind"] == kind
        ]
        return sorted(found, key=lambda each: (each.when, each.hertz or 0))

    def rendered(self) -> npt.NDArray[np.float32]:
        """What was started so far, as samples (44.1 kHz)."""
        return np.frombuffer(b64decode(self.page.evaluate("rendered()")), dtype=np.float32)

    def clicks(self) -> list[float]:
        """When the clicks sounded: those of the count-in, and those under the tune."""
        return [each.when for each in self.heard("square")]

    def forget(self) -> None:
        """Begin the record anew."""
        self.page.evaluate("heard.length = 0")

    def text(self, selector: str) -> str:
        """What an element says."""
        return self.page.locator(selector).inner_text()

    def slide(self, selector: str, value: int) -> None:
        """Move a slider."""
        self.page.locator(selector).fill(str(value))

    def focused(self) -> str:
        """The element that has the keyboard: its id, or its label, or its text."""
        found: str = self.page.evaluate(
            "(e => e.id || e.getAttribute('aria-label') || e.textContent)(document.activeElement)"
        )
        return found
