"""The text of old tab before any note is read: plain signs, columns, the harp that it names."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from formsheet.notes.melody import NotesError

#: What a file of tab may have; a page of tab has a few thousand characters. Our own choice.
MOST_CHARACTERS = 100_000
MOST_LINES = 2000

#: Signs of word processors and telephones, and the plain ones that they stand for.
_PLAIN = str.maketrans(
    {
        **dict.fromkeys("−–—‐‑‒―", "-"),
        **dict.fromkeys("’‘‛´`′ʼ", "'"),
        **dict.fromkeys("“”„″‟", '"'),
        **dict.fromkeys("⬆⇑▲△🠕🡑⇧", "↑"),
        **dict.fromkeys("⬇⇓▼▽🠗🡓⇩", "↓"),
        "♭": "b", "\u00a0": " ", "\u202f": " ", "＋": "+", "（": "(", "）": ")",
        **dict.fromkeys("\ufe0f\ufe0e\u200b\u200c\u200d\ufeff\u00ad"),
    }
)  # fmt: skip
_BLACK_CIRCLES = str.maketrans({chr(0x2776 + n): chr(0x2460 + n) for n in range(10)})
_WHITE = re.compile(r"[①-⑩]")

#: A gap between columns, in characters.
_GAP = 3
_SEGMENT = re.compile(r"\S+(?: {1,2}\S+)*")


class Line(NamedTuple):
    """A line of the file, or of a column of it."""

    number: int  # in the file, from 1
    text: str


class Page(NamedTuple):
    """The lines in the order in which they are played."""

    lines: tuple[Line, ...]
    columns: int


def plain_text(text: str) -> str:
    """The text with plain signs for those of word processors."""
    text = text.translate(_PLAIN)
    return text if _WHITE.search(text) else text.translate(_BLACK_CIRCLES)


def page_of(text: str, columns: int | None = None) -> Page:
    """The lines of a file in the order in which they are played; columns one after another.

    `columns` is how many there are, where that is known. NotesError if the file is too long, or if
    it is a question whether it has columns.
    """
    if len(text) > MOST_CHARACTERS:
        raise NotesError(
            f"the file has {len(text)} characters; old tab is read up to {MOST_CHARACTERS}: "
            "put each tune into a file of its own"
        )
    rows = plain_text(text).splitlines()
    if len(rows) > MOST_LINES:
        raise NotesError(
            f"the file has {len(rows)} lines; old tab is read up to {MOST_LINES}: "
            "put each tune into a file of its own"
        )
    lines = [Line(number, row.expandtabs(8).rstrip()) for number, row in enumerate(rows, start=1)]
    if columns == 1:
        return Page(tuple(lines), 1)
    places = _column_places(lines)
    if columns is not None and columns != len(places) + 1:
        raise NotesError(
            f"the lines have {len(places) + 1} columns, not {columns}: begin each column at the "
            f"same place in all lines, with {_GAP} spaces before it"
        )
    if places and columns is None and _few(lines, places[0]):
        raise NotesError(
            f"lines {_first_of(lines, places[0])} and below have a gap at character "
            f"{places[0] + 1}: are there columns? --columns {len(places) + 1} reads down the left "
            "one first, --columns 1 reads across"
        )
    return Page(tuple(_in_order(lines, places)), len(places) + 1)


def _column_places(lines: Sequence[Line]) -> list[int]:
    """Where columns begin after the first: after a gap that every line has that goes so far."""
    starts: dict[int, int] = {}
    for line in lines:
        for found in list(_SEGMENT.finditer(line.text))[1:]:
            if re.search(r"\d", found[0]):
                starts[found.start()] = starts.get(found.start(), 0) + 1
    return [at for at, times in sorted(starts.items()) if times > 1 and _is_gap(lines, at)]


def _is_gap(lines: Sequence[Line], at: int) -> bool:
    across = [line for line in lines if len(line.text) > at]
    return all(
        line.text[max(0, at - _GAP) : at].isspace() and not line.text[at].isspace()
        for line in across
    )


def _few(lines: Sequence[Line], at: int) -> bool:
    """Whether so few lines have the gap that it may be a pause."""
    across = [line for line in lines if len(line.text) > at]
    return len(across) < 3


def _first_of(lines: Sequence[Line], at: int) -> int:
    return next(line.number for line in lines if len(line.text) > at)


def _in_order(lines: Sequence[Line], places: Sequence[int]) -> list[Line]:
    edges = [0, *places]
    return [
        Line(line.number, line.text[begin:end].rstrip())
        for begin, end in zip(edges, [*places, None], strict=True)
        for line in lines
        if line.text[begin:end].strip()
    ]


_KEY = r"(?P<key>[A-G](?:b|#|-flat|-sharp)?)"
_NAMES = r"(?i:harp|harmonica|harmonika|diatonic)"
_HARP = (
    re.compile(rf"{_NAMES}\s*(?:(?i:in|key)\b|[:=])*\s*(?i:the key of)?\s*{_KEY}\b"),
    re.compile(rf"(?i:\bthe|\bfor|\bon|\ban?|\bin|\bkey of)\s+{_KEY}[ -]{_NAMES}\b"),
    re.compile(r"^\s*(?P<key>[B-G](?:b|#)?|A[b#])[ -](?i:harp|harmonica|diatonic)\b"),
)  # fmt: skip


def harp_named(lines: Sequence[Line]) -> str:
    """The key of the harp that a line of words names; "" where none does."""
    for line in lines:
        for pattern in _HARP:
            if found := pattern.search(line.text):
                return found["key"].replace("-flat", "b").replace("-sharp", "#")
    return ""
