"""Changes to a text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Edit:
    """New text for a stretch of the old one, by offsets."""

    start: int
    end: int
    text: str


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with its changes; one that is given twice is made once."""
    parts: list[str] = []
    at = 0
    for edit in sorted(set(edits)):
        parts += [text[at : edit.start], edit.text]
        at = edit.end
    return "".join([*parts, text[at:]])
