"""A line that holds two facts: `harp C position 2nd`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from formsheet.language.tree import Fact, FormLine, Line, TuningLine, Word
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.vocabulary.facts import FACT_OF, TEXT_FACTS, Said, Shape
from formsheet.vocabulary.quotes import DOUBLE


class SecondFact(NamedTuple):
    """Where a line goes on with another fact."""

    keyword: str  # of the first
    first: Line  # the line without the other
    end: int  # offset of the end of the first
    place: Span  # of the keyword of the other


def second_fact(line: Line) -> SecondFact | None:
    """The second fact of a line; None where it has one alone, as it should."""
    match line:
        case Fact(keyword, words) if keyword.text not in TEXT_FACTS and len(words) > 2:
            name = Word(" ".join(w.text for w in words), words[0].span.to(words[-1].span))
        case FormLine(keyword=keyword, name=Word() as name) | TuningLine(keyword, name):
            pass
        case _:
            return None
    if FACT_OF.keys().isdisjoint(name.text.split()) or name.span.text[0] in DOUBLE:
        return None
    any_shape = isinstance(line, Fact)  # a form or a tuning may have any word in its name
    written = _written_words(name.span)
    second = next((at for at in range(1, len(written)) if _is_fact(written[at:], any_shape)), None)
    if second is None:
        return None
    place, end = written[second].span, written[second - 1].span.end
    start = place.start
    source = place.source
    if isinstance(line, Fact):
        first: Line = line._replace(words=tuple(w for w in line.words if w.span.start < start))
    else:
        kept = Word(
            " ".join(word.text for word in written[:second]), Span(source, name.span.start, end)
        )
        first = line._replace(name=kept)
    return SecondFact(keyword.text, first, end, place)


def _written_words(span: Span) -> list[Word]:
    """The words of a span as they are written, each with its place."""
    places = (
        Span(span.source, span.start + found.start(), span.start + found.end())
        for found in re.finditer(r"\S+", span.text)
    )
    return [Word(place.text, place) for place in places]


def _is_fact(words: Sequence[Word], any_shape: bool) -> bool:
    """Whether these words begin with a fact: its keyword, and a number or a value that is read.

    Where `any_shape` is false, only facts whose value is words count.
    """
    keyword, *value = words
    fact = FACT_OF.get(keyword.text)
    if fact is None or fact.read is None or not value:
        return False
    if fact.shape is not Shape.WORDS:
        return any_shape
    if value[0].text[0].isdigit():
        return True
    tried = (tuple(value[:2]), tuple(value[:1]))  # `harp low F`, `harp C`
    return any(not isinstance(fact.read(Said(fact.word, said)), Problem) for said in tried)
