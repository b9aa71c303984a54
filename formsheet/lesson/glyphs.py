"""Printed texts with characters that the typeface of the sheet does not have."""

from __future__ import annotations

from formsheet.faces import missing
from formsheet.language import tree as t
from formsheet.lesson.printed import printed_texts
from formsheet.problems import kinds
from formsheet.problems.problem import Problem

_MOST = 8  # characters listed


def glyph_findings(tree: t.FileTree) -> list[Problem]:
    """One warning a file, at the first text that would be printed in another face or as boxes."""
    texts = [word for word in printed_texts(tree) if missing(word.text)]
    if not texts:
        return []
    signs = missing("".join(word.text for word in texts))
    first = min(texts, key=lambda word: word.span.start)
    left = len(signs) - _MOST
    more = f" and {left} more sign{'s' if left > 1 else ''}" if left > 0 else ""
    return [kinds.GlyphMissing(first.span, signs=" ".join(signs[:_MOST]), more=more)]
