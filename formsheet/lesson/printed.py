"""The texts of a file that are printed on the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.language import tree as t
from formsheet.vocabulary.facts import FACT_OF


def printed_texts(tree: t.FileTree) -> Iterator[t.Word]:
    """Every text of the file that is printed on the sheet."""
    for fact in tree.facts:
        if FACT_OF[fact.keyword.text].printed:
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
