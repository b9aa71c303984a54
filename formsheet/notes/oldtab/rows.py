"""Old tab in two rows: a row of holes, and below it a row that says draw or blow."""

from __future__ import annotations

import re
from collections.abc import Sequence

from formsheet.music.tab import Breath, Tab
from formsheet.notes.oldtab.layout import Line
from formsheet.notes.oldtab.line import BAR, Phrase, Trouble, Words, line_of
from formsheet.notes.oldtab.shorthands import DOWN, UP, row_of_holes

_DRAWN = {
    **dict.fromkeys((*DOWN, "D", "d", "-"), True),
    **dict.fromkeys((*UP, "B", "b", "+"), False),
}


def phrases_in_rows(lines: Sequence[Line]) -> list[Phrase | Words | Trouble]:
    """The lines, two and two where a row of holes stands over a row of signs."""
    found: list[Phrase | Words | Trouble] = []
    written = [line for line in lines if line.text.strip()]
    at = 0
    while at < len(written):
        holes = line_of(written[at], row_of_holes, bare=True)
        below = written[at + 1] if at + 1 < len(written) else None
        at += 1
        if isinstance(holes, Words | Trouble):
            found.append(holes)
        elif below is None or (breaths := _breaths(below)) is None:
            found.append(
                Trouble(holes.line, "there is no row of arrows or letters below the holes")
            )
        else:
            found.append(_joined(holes, breaths))
            at += 1
    return found


def _breaths(line: Line) -> list[Breath] | None:
    words = BAR.sub(" ", line.text).split()
    if not words or not all(word in _DRAWN for word in words):
        return None
    return [Breath.DRAW if _DRAWN[word] else Breath.BLOW for word in words]


def _joined(holes: Phrase, breaths: Sequence[Breath]) -> Phrase | Trouble:
    if len(breaths) != len(holes.tabs):
        return Trouble(
            holes.line,
            f"the row has {len(holes.tabs)} holes, and {len(breaths)} signs stand below it; "
            "which hole has none?",
            len(breaths),
            True,
        )
    each = iter(breaths)
    bars: list[tuple[Tab, ...]] = [
        tuple(tab._replace(breath=next(each)) for tab in bar) for bar in holes.bars
    ]
    return holes._replace(bars=tuple(bars), shows_draw=True)


def has_signs_alone(lines: Sequence[Line]) -> bool:
    """Whether some line has nothing but signs of breath."""
    return any(_breaths(line) is not None and re.search(r"\S\s+\S", line.text) for line in lines)
