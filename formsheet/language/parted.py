"""A line that holds two facts: `harp C position 2nd`."""

from __future__ import annotations

import re
from typing import NamedTuple

from formsheet.language.tree import Fact, FormLine, Line, TuningLine, Word
from formsheet.source import Span
from formsheet.vocabulary.quotes import DOUBLE

_TEXTS = ("title", "teacher", "rights", "date", "say")  # take the rest of their line
#: A fact with its value: as a text, which is compiled when a line may hold one.
_FACT = (
    r"(?:tempo|learn|count-in)\s+\d|position\s+\d|meter\s+\d+/\d|feel\s+(?:swing|straight)\b"
    r"|harp\s+(?:(?:low|high)\s+)?[A-G][b#♭♯]?(?:\s|$)|level\s+(?:beginner|improver|advanced)\b"
)
_ANY = rf"{_FACT}|(?:form|tuning|title|teacher|rights|date|say)\s+\S"
_WORDS = frozenset({"tempo", "learn", "count-in", "position", "meter", "feel", "harp", "level",
                    "form", "tuning", *_TEXTS})  # fmt: skip


class SecondFact(NamedTuple):
    """Where a line goes on with another fact."""

    keyword: str  # of the first
    first: Line  # the line without the other
    end: int  # offset of the end of the first
    place: Span  # of the keyword of the other


def second_fact(line: Line) -> SecondFact | None:
    """The second fact of a line; None where it has one alone, as it should."""
    match line:
        case Fact(keyword, words) if keyword.text not in _TEXTS and len(words) > 2:
            name = Word(" ".join(w.text for w in words), words[0].span.to(words[-1].span))
            pattern = _ANY
        case FormLine(keyword=keyword, name=Word() as name) | TuningLine(keyword, name):
            pattern = _FACT
        case _:
            return None
    if _WORDS.isdisjoint(name.text.split()) or name.span.text[0] in DOUBLE:
        return None
    source = name.span.source
    found = re.search(rf"(?<=\s)(?:{pattern})", written := name.span.text)
    if not found:
        return None
    start = name.span.start + found.start()
    end = name.span.start + len(written[: found.start()].rstrip())
    place = Span(source, start, start + len(re.match(r"\S+", found[0])[0]))  # type: ignore[index]
    if isinstance(line, Fact):
        first: Line = line._replace(words=tuple(w for w in line.words if w.span.start < start))
    else:
        kept = Word(" ".join(written[: found.start()].split()), Span(source, name.span.start, end))
        first = line._replace(name=kept)
    return SecondFact(keyword.text, first, end, place)
