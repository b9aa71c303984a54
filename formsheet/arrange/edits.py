"""Edits of a text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Edit:
    """New text for a range of the old one, given as offsets."""

    start: int
    end: int
    text: str


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with all edits applied; equal edits are applied once."""
    parts: list[str] = []
    at = 0
    for edit in sorted(set(edits)):
        parts += [text[at : edit.start], edit.text]
        at = edit.end
    return "".join([*parts, text[at:]])
