"""Whether there is colour: NO_COLOR (no-color.org) before FORCE_COLOR before the terminal."""

from __future__ import annotations

from io import StringIO

import pytest

from formsheet.report.paint import paints


class Stream(StringIO):
    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal

    def isatty(self) -> bool:
        return self.terminal


@pytest.mark.parametrize(
    ("terminal", "environment", "coloured"),
    [
        (True, {}, True),
        (False, {}, False),
        (True, {"TERM": "dumb"}, False),
        (True, {"NO_COLOR": "1"}, False),
        (True, {"NO_COLOR": ""}, True),
        (False, {"FORCE_COLOR": "1"}, True),
        (False, {"FORCE_COLOR": ""}, False),
        (False, {"FORCE_COLOR": "1", "TERM": "dumb"}, True),
        (False, {"FORCE_COLOR": "1", "NO_COLOR": "1"}, False),
    ],
)
def test_colour(
    monkeypatch: pytest.MonkeyPatch, terminal: bool, environment: dict[str, str], coloured: bool
) -> None:
    for name in ("NO_COLOR", "FORCE_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    assert paints(Stream(terminal)) is coloured
