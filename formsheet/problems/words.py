"""How the parts of a message are worded: code in backquotes, lists, lengths, common hints."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.listing import listed
from formsheet.problems.problem import Edit, Hint
from formsheet.source import Span

_LONGEST = 80  # characters quoted from a file: more would hide what is said about it
_MOST_LISTED = 24  # choices that are listed


def cut(text: str) -> str:
    """A text, shortened if it is very long."""
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…"


def code(text: str) -> str:
    """Text of a lesson or a command, in backquotes."""
    return f"`{cut(text)}`"


def one_of(choices: Sequence[str]) -> str:
    """Choices as text of a lesson: "`a`, `b` or `c`"."""
    return any_of([code(choice) for choice in choices])


def any_of(choices: Sequence[str]) -> str:
    """Choices in words: "a, b or c"; of very many the first."""
    shown = choices if len(choices) <= _MOST_LISTED else choices[: _MOST_LISTED - 1]
    items = [cut(choice) for choice in shown]
    if len(shown) < len(choices):
        items.append(f"one of {len(choices) - len(shown)} others")
    return listed(items, "or")


def bar_count(bars: int) -> str:
    """A number of bars: "1 bar", "4 bars"."""
    return "1 bar" if bars == 1 else f"{bars} bars"


def number(value: Fraction | int) -> str:
    """A number as short as it can be written: "60", "62.5"."""
    return f"{float(value):g}"


def write(text: str, span: Span, *, certain: bool = True) -> Hint:
    """What is likely meant, in place of the span; certain: nothing else can be meant."""
    return Hint(f"write {code(text)}", Edit(span, text, certain))


def or_write(text: str, span: Span) -> Hint:
    """Another thing that can be meant, to be written in place of the span."""
    return Hint(f"or write {code(text)}", Edit(span, text, certain=False))


def in_key(numerals: str, key: str, span: Span) -> Hint:
    """Chords in letters as numerals; not certain: the key of the lesson may be the slip."""
    words = f"write {code(numerals)}: that is what it is in {key}, the key of this lesson"
    return Hint(words, Edit(span, numerals, certain=False))


def did_you_mean(name: str, span: Span, text: str | None = None) -> Hint:
    """The known name that is nearest to the one in the span; `text` if it is not written alone.

    It is certain where both are the same but for capitals and the signs between their words.
    """
    edit = Edit(span, text or name, certain=_same(name, span.text))
    return Hint(f"did you mean {code(name)}?", edit)


def _same(one: str, other: str) -> bool:
    return _letters(one) == _letters(other)


def _letters(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum())
