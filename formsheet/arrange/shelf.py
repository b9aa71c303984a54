"""Write licks as a shelf: the facts of a shelf, then the licks."""

from __future__ import annotations

from collections.abc import Iterable

from formsheet.language import tree as t
from formsheet.language.writer import lines_text
from formsheet.lesson.model import Facts, Lick
from formsheet.lesson.writing import lick_lines
from formsheet.lesson.writing_facts import fact_lines

#: Facts of licks without a lesson; `feel` is added if it is not straight.
_KEPT = ("harp", "position", "meter")


def shelf_text(facts: Facts, licks: Iterable[Lick]) -> str:
    """The text of a shelf, for pasting or for a file."""
    lines = shelf_lines(facts)
    for lick in licks:
        lines += lick_lines(lick)
    return lines_text(lines)


def shelf_lines(facts: Facts) -> list[t.Line]:
    """The lines of the facts that a shelf has."""
    kept = (*_KEPT, "feel") if facts.feel.swings else _KEPT
    return [
        line
        for line in fact_lines(facts)
        if not isinstance(line, t.Fact | t.FormLine | t.ChordLine)
        or (isinstance(line, t.Fact) and line.keyword.text in kept)
    ]
