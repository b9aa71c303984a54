"""Golden exports of the demo lessons: `python -m tests.exports.golden` writes them anew."""

from __future__ import annotations

from pathlib import Path

from formsheet.exports.text import text_tab
from tests.lessons import NAMES, demo

GOLDEN = Path(__file__).parents[1] / "golden" / "tab"


def tab_of(name: str) -> str:
    """The text tab of a demo lesson."""
    tune = demo(name).tune
    assert tune
    return text_tab(tune)


def rewrite() -> None:
    """Write them anew. Read every change."""
    GOLDEN.mkdir(parents=True, exist_ok=True)
    for name in NAMES:
        (GOLDEN / f"{name}.txt").write_text(tab_of(name), encoding="utf-8")


if __name__ == "__main__":
    rewrite()
