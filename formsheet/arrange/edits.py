"""Changes to a text, its columns kept where there is room."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

_SPACES = re.compile(r" *")
_WIDE = 2  # spaces from which on a gap is there for the columns


@dataclass(frozen=True, order=True)
class Edit:
    """New text for a stretch of the old one, by offsets."""

    start: int
    end: int
    text: str


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with its changes.

    What a change makes longer or shorter is taken from or given to the next gap of two spaces or
    more on its line, so that what stood in columns still does.
    """
    parts: list[str] = []
    at = drift = 0
    ordered = sorted(edits)
    for index, edit in enumerate(ordered):
        parts += [text[at : edit.start], edit.text]
        at = edit.end
        drift += len(edit.text) - (edit.end - edit.start)
        stop = ordered[index + 1].start if index + 1 < len(ordered) else len(text)
        kept, at, drift = _gap(text, at, stop, drift)
        parts.append(kept)
    return "".join([*parts, text[at:]])


def _gap(text: str, at: int, stop: int, drift: int) -> tuple[str, int, int]:
    """What follows a change up to the first wide gap, that gap made to fit; the drift left over."""
    begin = at
    while at < stop:
        if text[at] == "\n" or "\n" in text[begin:at]:
            return text[begin:at], at, 0
        found = _SPACES.match(text, at)
        assert found
        end = min(found.end(), stop)
        width = end - at
        if width >= _WIDE:
            if end == len(text) or text[end] in "\r\n":  # at the end of a line nothing stands below
                return text[begin:end], end, 0
            room = max(1, width - drift)
            return text[begin:at] + " " * room, end, drift - (width - room)
        at = max(end, at + 1)
    return text[begin:at], at, drift
