"""What the tool says of a lesson: the words of a problem's kind, filled with its facts.

Each kind of problem has a message and hints. `{name}` is a fact of the problem. A hint is an
action, and is given only where all its facts are known. Lists read "a, b or c"; `:code` sets a
fact in backquotes, `:bars` reads bar numbers, `:steps` half steps.
"""

from __future__ import annotations

import string
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any, ClassVar

from formsheet.listing import bars_words, listed
from formsheet.music.steps import step_words
from formsheet.problems.kinds.facts import FACTS
from formsheet.problems.kinds.lines import LINES
from formsheet.problems.kinds.music import MUSIC
from formsheet.problems.kinds.play import PLAY
from formsheet.problems.kinds.playing import PLAYING
from formsheet.problems.kinds.words import Words
from formsheet.problems.problem import Problem

#: Every kind of problem, in the order in which a lesson is read.
WORDING: dict[str, Words] = {**LINES, **FACTS, **MUSIC, **PLAY, **PLAYING}

_LONGEST_FACT = 80  # characters of a word of the file: more would hide what is said of it
_MOST_LISTED = 24  # of what there is to choose from


def _long(bars: int) -> str:
    return "1 bar" if bars == 1 else f"{bars} bars"


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST_FACT else f"{text[:_LONGEST_FACT]}…"


class _Formatter(string.Formatter):
    """Facts to words, by the kind that the template names or by their own."""

    _KINDS: ClassVar[dict[str, Callable[[Any], str]]] = {
        "steps": step_words, "bars": bars_words, "long": _long}  # fmt: skip

    def format_field(self, value: Any, format_spec: str) -> str:
        if format_spec in self._KINDS:
            return self._KINDS[format_spec](value)
        if isinstance(value, str):
            return f"`{_cut(value)}`" if format_spec == "code" else _cut(value)
        if isinstance(value, Sequence):
            shown = value if len(value) <= _MOST_LISTED else value[: _MOST_LISTED - 1]
            items = [_cut(str(item)) for item in shown]
            items = [f"`{item}`" for item in items] if format_spec == "code" else items
            if len(shown) < len(value):
                items.append(f"one of {len(value) - len(shown)} others")
            return listed(items, "or")
        if isinstance(value, Fraction):
            return f"{float(value):g}"
        return str(value)


_FORMATTER = _Formatter()


def _known(template: str, facts: dict[str, Any]) -> bool:
    """Whether every fact that a hint needs is there."""
    names = {name for _, name, _, _ in string.Formatter().parse(template) if name}
    return all(facts.get(name) not in (None, "", [], ()) for name in names)


def words(problem: Problem) -> tuple[str, list[str]]:
    """Message and hints of a problem."""
    entry = WORDING[problem.slug]
    hints = [hint for hint in entry.hints if _known(hint, problem.facts)]
    return (
        _FORMATTER.vformat(entry.message, (), problem.facts),
        [_FORMATTER.vformat(hint, (), problem.facts) for hint in hints],
    )
