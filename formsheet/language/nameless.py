"""A lick or a rhythm whose name was forgotten: told as that, with a name to write."""

from __future__ import annotations

import re
from itertools import pairwise

from formsheet.language.tree import AnyMark, Mark, RhythmLine, Sign, Word
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.vocabulary.quotes import DOUBLE, plain_quotes

_TITLED = r"""[^\S\n]*(?P<keyword>lick|turnaround|rhythm)[^\S\n]+(?P<title>"[^"\n]*")"""
_ON = r"[^\S\n]*(?P<keyword>lick|turnaround)(?=[^\S\n]+on[^\S\n]+[b#♭♯]?[IViv]+[\w+°]*([\s,|]|$))"
_VALUE = r"[whqes]3?"
#: A word that has a meaning of its own where a lick is placed: a chord, a count, silence.
_TAKEN = r"[iv]+|x\d+|rest"
_USUAL = {"lick": "walk", "turnaround": "home", "rhythm": "groove"}
_LONGEST = 60  # letters of what is offered to write


def name_missing(line: Span) -> Problem | None:
    """The problem of a first line without a name: `lick "Sideways" on IV`, `lick on IV`."""
    source = line.source
    text = line.text
    if titled := re.match(_TITLED, plain_quotes(text)):
        keyword, title = titled["keyword"], text[titled.start("title") : titled.end("title")]
        head = f"{keyword} {name_of(title, keyword, source.text)}"
        start = line.start + titled.start("keyword")
        kept = keyword != "rhythm"  # which has no title
        end = titled.end("title") if not kept or len(title) < _LONGEST else titled.end("keyword")
        guess = f"{head} {title}" if kept and len(title) < _LONGEST else head
        span = Span(source, start, line.start + end)
        before = "its title" if kept else "its values"
        return kinds.NameMissing(span, keyword=keyword, before=before, guess=guess)
    if plain := re.match(_ON, text):
        keyword = plain["keyword"]
        span = Span(source, line.start + plain.start("keyword"), line.start + plain.end("keyword"))
        guess = f"{keyword} {name_of('', keyword, source.text)}"
        return kinds.NameMissing(span, keyword=keyword, before="`on`", guess=guess)
    return None


def is_nameless(words: tuple[Word, ...]) -> bool:
    """Whether a line that was not read is one without a name, by its first words."""
    second = words[1].text if len(words) > 1 else ""
    return words[0].text in _USUAL and (second == "on" or second[:1] in tuple(DOUBLE))


def name_of(title: str, keyword: str, text: str) -> str:
    """A name made of a title's letters that the file does not give to another."""
    letters = re.findall(r"[^\W\d_]+", title.casefold())
    name = "-".join(letters)[:_LONGEST].rstrip("-") or _USUAL[keyword]
    if re.fullmatch(_TAKEN, name):
        name = f"{name}-{keyword}"
    given = set(re.findall(r"(?m)^[^\S\n]*(?:lick|turnaround|rhythm)[^\S\n]+([\w'’-]+)", text))
    numbered = (f"{name}-{number}" for number in range(2, len(given) + 3))
    return next(free for free in (name, *numbered) if free not in given)


def is_value_for_name(line: RhythmLine) -> bool:
    """Whether what stands for the rhythm's name is its first value: `rhythm q x e x x`."""
    marks = line.music
    if not marks or not re.fullmatch(_VALUE, line.name.text):
        return False
    in_a_row = any(_is_value(mark) and _is_value(after) for mark, after in pairwise(marks))
    return in_a_row or not (_is_value(marks[0]) or _switches(marks[0]))


def value_for_name(line: RhythmLine, wanted: str | None) -> Problem:
    """The problem of such a rhythm; `wanted` is a name that a lick asks for in vain."""
    span = line.keyword.span.to(line.name.span)
    name = wanted or name_of("", "rhythm", span.source.text)
    guess = f"rhythm {name} {line.name.text}"
    return kinds.NameMissing(span, keyword="rhythm", before="its values", guess=guess)


def _is_value(mark: AnyMark) -> bool:
    return isinstance(mark, Mark) and mark.sign is Sign.VALUE


def _switches(mark: AnyMark) -> bool:
    return isinstance(mark, Mark) and mark.sign in (Sign.SWING, Sign.STRAIGHT)
