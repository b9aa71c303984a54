"""What a teacher most likely meant by a line or a word that cannot be read."""

from __future__ import annotations

import re
from collections.abc import Collection

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from formsheet.language.expected import expected_words
from formsheet.language.lines import without_comment
from formsheet.language.nameless import name_missing
from formsheet.language.strays import looks_like_chord
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.vocabulary.lines import USAGE

# Patterns as text: `re` compiles each when it is first asked for, and most files have no mistakes.

_WORD_AT = r'"[^"\s]*|\S[^\s"]*'
_QUOTES = '"“”'


def line_mistake(caught: UnexpectedInput, line: Span) -> Problem:
    """The problem of a line that does not follow the grammar."""
    if kept := without_comment(line.text):
        line = Span(line.source, line.start, line.start + len(kept))
    if nameless := name_missing(line):
        return nameless
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
    if span.text[0] in _QUOTES:
        return kinds.QuoteOpen(Span(line.source, at, line.end))
    if span.text[0] in "!{" and line.source.text[at - 1] not in " \t":
        return kinds.NoteOrder(span, found=span.text)
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
