"""A folder of lessons and one of handouts, made of cheap parts."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from formsheet.commands.build import targets
from formsheet.commands.files import jobs
from formsheet.engine.build import build
from formsheet.engine.event import Event
from formsheet.engine.parts import PARTS
from formsheet.engine.plan import Plan, plan
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.music.harp import Harp
from formsheet.sheet.options import Options
from tests.cheap import CHEAP
from tests.helpers import lesson_text, own_form

#: Long enough for a file to count as left alone, in seconds.
A_WHILE = 0.03

SHELF = "lick {name} on I\n  w {tab}\n"


class Desk:
    """Lessons, handouts, and builds of them."""

    def __init__(self, path: Path) -> None:
        self.lessons, self.out = path / "lessons", path / "out"
        self.options = Options()
        self.parts: tuple[str, ...] = tuple(CHEAP)
        self.harps: Sequence[Harp | None] = (None,)

    def write(self, name: str, text: str) -> Path:
        path = self.lessons / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    def lesson(self, name: str, tab: str = "2d", *more: str) -> Path:
        """A lesson with a lick of one note, and others."""
        licks = [f"lick l{at} on I\n  w {each}" for at, each in enumerate((tab, *more))]
        placed = ", ".join(f"l{at} x1" for at in range(len(licks)))
        chords = " | ".join(["I"] * len(licks))
        play = f"play\n  bars 1-{len(licks)} {placed}"
        return self.write(name, lesson_text("\n".join([*licks, play]), form=own_form(chords)))

    def using(self, name: str, shelf: str) -> Path:
        """A lesson that takes its lick from a shelf."""
        text = lesson_text(f"use run from {shelf}\nplay\n  every I run", form=own_form("I"))
        return self.write(name, text)

    def shelf(self, name: str, tab: str) -> Path:
        return self.write(name, SHELF.format(name="run", tab=tab))

    @property
    def targets(self) -> list[Target]:
        work = jobs([str(self.lessons)], (".lesson",))
        return targets(work, self.out, self.parts, self.options, self.harps)

    def plan(self) -> Plan:
        return plan(self.targets, Tool())

    @property
    def stale(self) -> list[str]:
        """What a build would make: "NAME" where all parts, else "NAME:PART"."""
        return [
            ":".join([t.folder.name, *(t.parts if t.parts != self.parts else ())])
            for t in self.plan().stale
        ]

    def build(self) -> dict[str, Event]:
        """Build what is stale; the events by the names of their folders."""
        return {e.target.folder.name: e for e in build(self.plan(), Tool(), jobs=1)}

    def made(self) -> dict[str, bytes]:
        """All files of the handouts but the engine's own."""
        return files_below(self.out)

    def again(self) -> list[Event]:
        return list(build(plan(self.targets, Tool(), again=True), Tool(), jobs=1, again=True))


def files_below(folder: Path) -> dict[str, bytes]:
    """The files of a folder by name, but for those of the engine."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.startswith(".formsheet")
    }


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    for name in reversed(list(PARTS)):  # restored in reverse, so in their order
        monkeypatch.delitem(PARTS, name)
    for name, part in CHEAP.items():
        monkeypatch.setitem(PARTS, name, part)
    return Desk(tmp_path)
