"""What a watch has to tell while it goes on; the command prints it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from formsheet.desk.board import Known

if TYPE_CHECKING:
    from formsheet.desk.folder import Found


class Teller(Protocol):
    """Is told what happens, from more than one thread."""

    def first_look(self, known: Sequence[Known]) -> None:
        """All files of the folder have been read once."""

    def looked(self, known: Known, seconds: float) -> None:
        """A file that has changed was read again, so long after the change was seen."""

    def gone(self, name: str) -> None:
        """A file has gone."""

    def folder_gone(self) -> None:
        """The lessons folder itself has gone."""

    def folder_back(self) -> None:
        """It is there again."""

    def made(self, found: Found, files: Sequence[Path]) -> None:
        """Files of a handout were made."""

    def failed(self, found: Found, reason: str) -> None:
        """A handout could not be made."""
