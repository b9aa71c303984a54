"""Read a fact from a command option or from a caller, as in a lesson."""

from __future__ import annotations

import re
from typing import TypeVar

from formsheet.music.pitch import plain_signs
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span, Word
from formsheet.vocabulary.facts import Fact, Said

T = TypeVar("T")


def value_of(fact: Fact[T], words: str) -> T | Problem:
    """The value, or the problem that a lesson would report; here case is ignored."""
    words = words.strip()
    value = _read(fact, words)
    if isinstance(value, Problem):
        for meant in _meant(value, words):
            if _folded(meant) == _folded(words):
                return _read(fact, meant)
    return value


def _read(fact: Fact[T], words: str) -> T | Problem:
    assert fact.read, "a fact with an option has a reader"
    source = Source(fact.option, words)
    said = [
        Word(found[0], Span(source, found.start(), found.end()))
        for found in re.finditer(r"\S+", words)
    ]
    nothing = Word("", Span(source, 0, 0))
    return fact.read(Said(fact.word, tuple(said) or (nothing,), option=True))


def _meant(problem: Problem, words: str) -> list[str]:
    """The words with each change that the problem offers."""
    edits = [hint.edit for hint in problem.hints() if hint.edit]
    return [words[: e.span.start] + e.text + words[e.span.end :] for e in edits]


def _folded(words: str) -> str:
    return plain_signs(words).casefold()
