"""Windows for the tests of the page: without a network, one of its own for each test."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext

from tests.browser.window import Window, page_of

Opener = Callable[..., Window]


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
