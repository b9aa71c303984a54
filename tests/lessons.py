"""The demo lessons, for tests that take them all."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from formsheet.lesson.shelves import Shelves
from formsheet.stages import Examined, examine_file

LESSONS = Path(__file__).parents[1] / "lessons"
NAMES = sorted(path.stem for path in LESSONS.glob("*.lesson"))


@cache
def demo(name: str) -> Examined:
    """A demo lesson, read and judged."""
    return examine_file(LESSONS / f"{name}.lesson", f"{name}.lesson", Shelves(LESSONS))
