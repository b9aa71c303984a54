"""One browser for all tests of the page, without a network; each test has a window of its own."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from tests.browser.window import Window, page_of

_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)

Opener = Callable[..., Window]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The system's own browser, without a window."""
    found = shutil.which("chromium")
    assert found, "the tests of the page need chromium: tests/run installs it"
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=found, args=_FLAGS)
        yield launched
        launched.close()


@pytest.fixture
def opened(browser: Browser, tmp_path: Path) -> Iterator[Opener]:
    """Opens the page of a lesson's text, or a page: on a desk, or as a context's keywords say."""
    contexts: list[BrowserContext] = []
    windows: list[Window] = []

    def open_page(what: str | bytes, *, by_clock: bool = True, **options: object) -> Window:
        usual: dict[str, object] = {"viewport": {"width": 1440, "height": 900}, "offline": True}
        context = browser.new_context(**(usual | options))  # type: ignore[arg-type]
        context.set_default_timeout(5000)
        contexts.append(context)
        path = tmp_path / "page.html"
        path.write_bytes(page_of(what) if isinstance(what, str) else what)
        windows.append(Window(context.new_page(), path, by_clock=by_clock))
        return windows[-1]

    yield open_page
    complaints = [each for window in windows for each in window.complaints]
    for context in contexts:
        context.close()
    assert complaints == []
