"""Texts for print that hold characters which the sheet's typeface lacks."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.faces import missing
from formsheet.language import tree as t
from formsheet.problems.problem import Problem, warning

_TEXTS = frozenset({"title", "teacher", "rights", "date", "say"})
_MOST = 8  # characters named


def glyph_findings(tree: t.FileTree) -> list[Problem]:
    """One warning a file, at the first text that would be printed in another face, or as boxes."""
    texts = [word for word in _printed(tree) if missing(word.text)]
    if not texts:
        return []
    signs = missing("".join(word.text for word in texts))
    first = min(texts, key=lambda word: word.span.start)
    more = f" and {len(signs) - _MOST} more signs" if len(signs) > _MOST else ""
    return [warning("glyph-missing", first.span, signs=" ".join(signs[:_MOST]), more=more)]


def _printed(tree: t.FileTree) -> Iterator[t.Word]:
    """Every text of the file that goes on the sheet."""
    for fact in tree.facts:
        if fact.keyword.text in _TEXTS:
            yield from fact.words
    for lick in tree.licks:
        if lick.line and lick.line.title:
            yield lick.line.title
        yield from (tip.text for tip in lick.tips)
        marks = [*lick.marks, *(mark for line in lick.pickups for mark in line.marks)]
        yield from (m.syllable for m in marks if isinstance(m, t.NoteMark) and m.syllable)
    for play in tree.plays:
        if play.line.title:
            yield play.line.title
    for form in tree.forms:
        if form.line.name:
            yield form.line.name
