"""The events that a watch reports while it runs; the command prints them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from formsheet.desk.board import Known

if TYPE_CHECKING:
    from formsheet.desk.folder import Found


class Teller(Protocol):
    """Receives the events; may be called from several threads."""

    def first_look(self, known: Sequence[Known]) -> None:
        """All files of the folder have been read once."""

    def looked(self, known: Known, seconds: float) -> None:
        """A changed file was read again, so many seconds after its change was seen."""

    def gone(self, name: str) -> None:
        """A file was removed."""

    def folder_gone(self) -> None:
        """The lessons folder itself was removed."""

    def folder_back(self) -> None:
        """The lessons folder exists again."""

    def made(self, found: Found, files: Sequence[Path]) -> None:
        """Files of a handout were made."""

    def failed(self, found: Found, reason: str) -> None:
        """A handout could not be made."""
