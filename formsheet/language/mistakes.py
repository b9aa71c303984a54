"""What a teacher most likely meant by a line or a word that cannot be read."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Collection
from functools import lru_cache

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from formsheet.language.expected import expected_words
from formsheet.language.lines import without_comment
from formsheet.language.nameless import name_missing
from formsheet.language.strays import looks_like_chord, note_out_of_order
from formsheet.language.tree import Word
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span
from formsheet.vocabulary.lines import USAGE
from formsheet.vocabulary.quotes import DOUBLE, quoted_parts, unquoted

# Patterns as text: `re` compiles each when it is first asked for, and most files have no mistakes.

_WORD_AT = r'"[^"\s]*|\S[^\s"]*'
_NAMED = ("lick", "turnaround")
_LICK = r"(?m)^[^\S\n]*(?:lick|turnaround)[^\S\n]+([^\W\d_][\w'’-]*)([^\n]*)"
_PLACED = r"\s*(?P<keyword>lick|turnaround)\s+(?P<name>[^\W\d_][\w'’-]*)(\s+x\d{1,4})?\s*"
_MORE_WORDS = r"(?:(?!x\d{1,4}\b)[^\W\d_][\w'’-]*\s*)+(?=$|x\d|,)"
#: A line that begins a block, but for a lick that is placed by mistake in the same words.
_HEAD = (
    r"(?m)^[^\S\n]*(?:(play|rhythm|form)\b"
    r"|(?:lick|turnaround)\b(?![^\S\n]+[^\W\d_][\w'’-]*(?:[^\S\n]+x\d{1,4})?[^\S\n]*$))"
)


def line_mistake(caught: UnexpectedInput, line: Span) -> Problem:
    """The problem of a line that does not follow the grammar."""
    if kept := without_comment(line.text):
        line = Span(line.source, line.start, line.start + len(kept))
    if problem := name_missing(line) or _placed_as_a_lick(line):
        return problem
    at = caught.pos_in_stream if isinstance(caught, UnexpectedCharacters) else None
    if isinstance(caught, UnexpectedToken) and caught.token.type not in ("$END", "_NL"):
        at = caught.token.start_pos
    terminals = _terminals(caught)
    if at is None or at >= line.end:
        end = Span(line.source, line.end, line.end)
        return kinds.LineUnfinished(
            end,
            last=_last_word(line),
            wanted=expected_words(terminals),
            chord_expected="CHORD" in terminals,
            usage=_usage(line),
        )
    found = re.match(_WORD_AT, line.source.text[at : line.end])
    span = Span(line.source, at, at + (found.end() if found else 1))
    if span.text[0] in DOUBLE:
        quoted = _quoted_from(line, at)
        if not quoted:
            return kinds.QuoteOpen(Span(line.source, at, line.end))
        if "SILENCE" in terminals:
            text = unquoted(quoted.text)
            return kinds.TitleForName(quoted, found=text, name=_name_of_title(text, line.source))
        span = quoted
    if span.text[0] in "!{" and line.source.text[at - 1] not in " \t":
        return note_out_of_order(span)
    if several := _several_words(line, span, terminals):
        return several
    head, _, rest = span.text.partition("#")
    if rest:
        return kinds.CommentJoined(span, found=span.text, guess=f"{head} #{rest}")
    return kinds.WordUnexpected(
        span,
        found=span.text,
        wanted=expected_words(terminals),
        chord_expected="CHORD" in terminals,
        usage=_usage(line),
    )


def meant_words(problem: Problem, words: tuple[Word, ...]) -> tuple[Word, ...]:
    """The first words of an unread line as they were most likely meant, for what depends on it."""
    if isinstance(problem, kinds.LickInPlay):
        return (Word("bars", problem.span), *words[1:])
    if isinstance(problem, kinds.NameOfWords) and words[0].text in _NAMED:
        return (words[0], Word(problem.guess, problem.span), *words[1:])
    return words


def _quoted_from(line: Span, at: int) -> Span | None:
    """The words in quotes that begin at a place of a line."""
    ends = dict(quoted_parts(line.text))
    end = ends.get(at - line.start)
    return Span(line.source, at, line.start + end) if end else None


def _name_of_title(title: str, source: Source) -> str | None:
    """The name of the lick with this title, or this name, where just one of the file has it."""
    wanted = title.casefold()
    found = set()
    for name, title_of_it in _titles(source.text):
        if wanted in (name.casefold(), title_of_it.casefold()):
            found.add(name)
    return found.pop() if len(found) == 1 else None


@lru_cache(4)
def _titles(text: str) -> list[tuple[str, str]]:
    """Names and titles of the licks of a file, as they are written; "" where one has none."""
    return [
        (name, next((unquoted(rest[a:b]) for a, b in quoted_parts(rest)), ""))
        for name, rest in re.findall(_LICK, text)
    ]


@lru_cache(4)
def _heads(text: str) -> tuple[list[int], list[str]]:
    """Where the blocks of a file begin, and their keywords."""
    found = list(re.finditer(_HEAD, text))
    return [each.start() for each in found], [each[1] or "lick" for each in found]


def _placed_as_a_lick(line: Span) -> Problem | None:
    """A lick placed under `play` by the word that begins one: `turnaround home`."""
    found = re.fullmatch(_PLACED, line.text)
    if not found:
        return None
    places, keywords = _heads(line.source.text)
    above = bisect_left(places, line.start)
    if not above or keywords[above - 1] != "play":
        return None
    bars = _last_bars(found["name"], line.source.text) if found["keyword"] != "lick" else None
    span = Span(line.source, line.start + found.start("keyword"), line.end)
    placed = f"{bars or 'bars 11-12'} {span.text.split(None, 1)[1]}"
    return kinds.LickInPlay(
        span, keyword=found["keyword"], name=found["name"], bars=bars, guess=placed
    )


def _last_bars(name: str, text: str) -> str | None:
    """The bars at a chorus's end that a turnaround fills, by its chords and the form's name."""
    form = re.search(r"(?m)^[^\S\n]*form[^\S\n]+(\d{1,2})-bar\b", text)
    written = rf"(?m)^[^\S\n]*turnaround[^\S\n]+{re.escape(name)}[^\S\n].*\bon[^\S\n](.*)$"
    lick = re.search(written, text)
    bars = lick[1].partition("#")[0].strip(" \t|").count("|") + 1 if lick else 1
    if not form or bars < 2 or bars > int(form[1]):
        return None
    return f"bars {int(form[1]) - bars + 1}-{form[1]}"


def _several_words(line: Span, span: Span, terminals: Collection[str]) -> Problem | None:
    """A name of several words, where a lick or a rhythm is given one or is placed by one."""
    before = line.source.text[line.start : span.start]
    words = before.split()
    if words and words[0] in _NAMED and len(words) == 2 and "ON" in terminals:
        keyword = words[0]
        behind = re.match(r"(?:(?!on\b)[^\W\d_][\w'’-]*[^\S\n]+)+(?=on\s|\")", _rest_of(span, line))
    elif "COMMA" in terminals and len(words) > 2:
        keyword = "lick"
        behind = re.match(_MORE_WORDS, _rest_of(span, line))
    else:
        return None
    first = re.search(r"[^\W\d_][\w'’-]*\s+$", before)
    if not behind or not first:
        return None
    whole = Span(line.source, line.start + first.start(), span.start + len(behind[0].rstrip()))
    title = " ".join(whole.text.split())
    if "COMMA" in terminals and (name := _name_of_title(title, line.source)):
        return kinds.TitleForName(whole, found=title, name=name)
    if behind[0][0].isupper():
        return None  # with a capital it is more likely a title
    return kinds.NameOfWords(whole, keyword=keyword, guess="-".join(whole.text.split()))


def _rest_of(span: Span, line: Span) -> str:
    """What is left of a line from a place on."""
    return line.source.text[span.start : line.end]


def _terminals(caught: UnexpectedInput) -> Collection[str]:
    """The grammar's terminals that could have followed."""
    if isinstance(caught, UnexpectedToken):
        return caught.accepts or caught.expected or ()
    return getattr(caught, "allowed", None) or ()


def _usage(line: Span) -> str | None:
    """How a line with this keyword is written."""
    keyword = line.text.split()[0]
    return USAGE["|"] if looks_like_chord(keyword) else USAGE.get(keyword)


def _last_word(line: Span) -> str:
    return line.text.split()[-1] if line.text.strip() else ""
