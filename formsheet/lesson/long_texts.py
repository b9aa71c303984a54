"""Texts too long for a sheet: a mistake, or a hostile lesson; typesetting them takes minutes."""

from __future__ import annotations

import re
from unicodedata import east_asian_width

from formsheet.language import tree as t
from formsheet.lesson.printed import printed_texts
from formsheet.problems import kinds
from formsheet.problems.problem import Problem

MOST_LETTERS = 4000  # in one text: about two pages
MOST_IN_A_WORD = 200  # letters without a space, except in Chinese and Japanese

_WORD = re.compile(rf"\S{{{MOST_IN_A_WORD + 1},}}")


def long_texts(tree: t.FileTree) -> list[Problem]:
    """Problems for texts, and for words in them, that are too long to print."""
    problems: list[Problem] = []
    for word in printed_texts(tree):
        if len(word.text) > MOST_LETTERS:
            letters = len(word.text)
            problems.append(kinds.TextTooLong(word.span, letters=letters, most=MOST_LETTERS))
        elif any(not _breaks_anywhere(found[0]) for found in _WORD.finditer(word.text)):
            problems.append(kinds.WordTooLong(word.span, most=MOST_IN_A_WORD))
    return problems


def _breaks_anywhere(word: str) -> bool:
    narrow = sum(east_asian_width(letter) not in "WF" for letter in word)
    return narrow <= MOST_IN_A_WORD
