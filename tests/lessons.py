"""The demo lessons, for tests that take them all."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from formsheet.lesson.shelves import Shelves
from formsheet.source import Source
from formsheet.stages import Examined, examine, examine_file

LESSONS = Path(__file__).parents[1] / "lessons"
NAMES = sorted(path.stem for path in LESSONS.glob("*.lesson"))

#: Changes after which a remark is made of a demo: it ends on V, with a lick that may be written for
#: I or without one, or it stays on the key note over V.
_CHANGES = {
    "back-step-shuffle": {"4d 4d   5d 6d": "4d 5d   6d 6b"},
    "last-tram-but-one": {"ii7 V7 | I\n": "ii7 V7 | I V\n", "  last time ending   I\n": ""},
    "two-lamps-on-mill-lane": {
        'play "Coming back" x2': 'play "Coming back"',
        "  last time ending   I\n": "",
        "  last time bars 11-12   blaze\n": "",
    },
}


@cache
def demo(name: str) -> Examined:
    """A demo lesson, read and judged."""
    return examine_file(LESSONS / f"{name}.lesson", f"{name}.lesson", Shelves(LESSONS))


def remarked_text(name: str) -> str:
    """The text of a demo lesson, changed where that brings a remark with offers and an edit."""
    text = (LESSONS / f"{name}.lesson").read_text(encoding="utf-8")
    for old, new in _CHANGES.get(name, {}).items():
        assert text.count(old) == 1
        text = text.replace(old, new)
    return text


@cache
def remarked(name: str) -> Examined:
    """A demo lesson that is changed so, read and judged."""
    path = LESSONS / f"{name}.lesson"
    return examine(Source(path.name, remarked_text(name), path), Shelves(LESSONS))
