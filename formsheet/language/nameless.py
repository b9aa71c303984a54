"""A lick or a rhythm whose name was forgotten: told as that, with a name to write."""

from __future__ import annotations

import re
from collections.abc import Collection
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
_NAME = r"[^\W\d_][\w'’-]*"
_GIVEN = r"(?m)^[^\S\n]*(?:lick|turnaround|rhythm)[^\S\n]+(?!on\s)([\w'’-]+)"
_NAMELESS = r"(?m)^[^\S\n]*(?:lick|turnaround)[^\S\n]+(?:on\s|[\"“„«])"
#: What a line of a play places: after the chords of `every`, or the numbers of bars.
_PLACING = (
    r"(?m)^[^\S\n]*(?:every(?:[^\S\n]+[b#♭♯]?[IViv]+[\w+°]*,?)+"
    r"|(?:last[^\S\n]+time[^\S\n]+)?bars?[^\S\n]+[\d–-]+)[^\S\n]+([^\n\"]*)"
)
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
    given = set(re.findall(_GIVEN, text))
    if asked := _asked_for(letters, keyword, text, given):
        return asked
    numbered = (f"{name}-{number}" for number in range(2, len(given) + 3))
    return next(free for free in (name, *numbered) if free not in given)


def _asked_for(
    title: Collection[str], keyword: str, text: str, given: Collection[str]
) -> str | None:
    """The name by which the play asks for a lick that no line begins, if it is this one's.

    It is a word of the title; without a title, the only name that is asked for and not given.
    """
    if keyword == "rhythm":
        return None
    used = re.findall(r"(?m)^[^\S\n]*use[^\S\n]+([^\n]*)", text)
    known = {"rest", *given, *re.findall(_NAME, " ".join(used))}
    placed = {
        each
        for line in re.findall(_PLACING, text)
        for each in re.findall(rf"(?<![\w'’-]){_NAME}", line.partition("#")[0])
        if each not in known and not re.fullmatch(_TAKEN, each)
    }
    whole = "-".join(title)
    meant = placed & {whole, *title} if title else placed
    alone = title or len(re.findall(_NAMELESS, text)) == 1
    return next(iter(meant)) if len(meant) == 1 and alone else None


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
