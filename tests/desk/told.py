"""A teller that remembers, and lessons for the desk."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from formsheet.desk.board import Known
from formsheet.desk.folder import Found
from tests.helpers import lesson_text, over, own_form

GOOD = over("I7 | IV7", "q 2d 3d 4d 5d | q 4b 5b 6b -")
WARNED = over("IV7", "w 3d")
BROKEN = over("I7 | IV7", "q 2d 3d 4d 5d | q 4b 5x 6b -")
SHELF = "lick home on I\n  w 2d\n"
TAKES_HOME = lesson_text("use home from corner\nplay\n every I home", form=own_form("I"))


class Told:
    """What a watch has told, a line each."""

    def __init__(self) -> None:
        self.lines: list[str] = []
        self.seconds: list[float] = []

    def first_look(self, known: Sequence[Known]) -> None:
        self.lines.append(f"first look at {len(known)}")

    def looked(self, known: Known, seconds: float) -> None:
        self.lines.append(f"{known.name}: {known.standing.value}")
        self.seconds.append(seconds)

    def gone(self, name: str) -> None:
        self.lines.append(f"{name}: gone")

    def folder_gone(self) -> None:
        self.lines.append("folder gone")

    def folder_back(self) -> None:
        self.lines.append("folder back")

    def made(self, found: Found, files: Sequence[Path]) -> None:
        self.lines.append(f"{found.name}: made {' '.join(path.name for path in files)}")

    def failed(self, found: Found, reason: str) -> None:
        self.lines.append(f"{found.name}: failed, {reason}")
