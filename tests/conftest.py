"""One browser for all tests that need one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The system's own browser, without a window."""
    found = shutil.which("chromium")
    assert found, "some tests need chromium: tests/run installs it"
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=found, args=_FLAGS)
        yield launched
        launched.close()
