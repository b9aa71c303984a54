"""Words that no hand has written: for lines that are made and not read."""

from __future__ import annotations

from formsheet.language.tree import Word
from formsheet.source import Source, Span

#: The place of marks that are in no file.
NOWHERE = Span(Source("", ""), 0, 0)


def word(text: str) -> Word:
    """A word without a place."""
    return Word(text, NOWHERE)
