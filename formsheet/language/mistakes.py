"""What a teacher most likely meant by a line or a word that cannot be read."""

from __future__ import annotations

import re

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from formsheet.language.expected import expected_words
from formsheet.language.tree import Mark
from formsheet.problems.problem import Problem, error
from formsheet.source import Span

_WORD_AT = re.compile(r'"[^"\s]*|\S[^\s"]*')
_QUOTES = '"“”'

_NOTE_LIKE = re.compile(r"(?P<holes>\d+)(?P<rest>\D.*)?")
_MIXED = re.compile(r"(\d+o?[bd]['’′]*){2,}")
_COUNT = re.compile(r"x\d+")
_VALUE_LIKE = re.compile(r"[whqes][.\d]+", re.IGNORECASE)


def line_mistake(caught: UnexpectedInput, line: Span) -> Problem:
    """The problem of a line that does not follow the grammar."""
    at = caught.pos_in_stream if isinstance(caught, UnexpectedCharacters) else None
    if isinstance(caught, UnexpectedToken) and caught.token.type not in ("$END", "_NL"):
        at = caught.token.start_pos
    if at is None or at >= line.end:
        end = Span(line.source, line.end, line.end)
        return error("line-unfinished", end, last=_last_word(line), **_wanted(caught, line))
    found = _WORD_AT.match(line.source.text, at)
    span = Span(line.source, at, min(found.end() if found else at + 1, line.end))
    if span.text[0] in _QUOTES:
        return error("quote-open", Span(line.source, at, line.end), found=span.text)
    if span.text[0] in "!{" and line.source.text[at - 1] not in " \t":
        return error("note-order", span, found=span.text)
    return error("word-unexpected", span, found=span.text, **_wanted(caught, line))


def _wanted(caught: UnexpectedInput, line: Span) -> dict[str, object]:
    if isinstance(caught, UnexpectedToken):
        terminals = caught.accepts or caught.expected or ()
    else:
        terminals = getattr(caught, "allowed", None) or ()
    keyword = line.text.split()[0]
    return {"wanted": expected_words(terminals), "usage": USAGE.get(keyword)}


#: How each line goes, by its first word: the hint where one cannot be read.
USAGE = {
    "title": "title Night Train Home",
    "teacher": "teacher The Tuesday Class",
    "rights": "rights Copy it for your own students",
    "date": "date May 2026",
    "say": "say Tap your foot on all four beats.",
    "harp": "harp C",
    "tuning": "tuning natural minor",
    "position": "position 2nd",
    "form": "form 12-bar standard ending I",
    "meter": "meter 12/8",
    "tempo": "tempo 104",
    "learn": "learn 60",
    "feel": "feel swing",
    "count-in": "count-in 2",
    "use": "use home, walk as stroll from turnarounds",
    "blow": "blow C E G C E G C E G C",
    "draw": "draw D G B D F A B D F A",
    "rhythm": "rhythm trot q x e x x h x",
    "lick": 'lick porch "Front porch" on I',
    "turnaround": "turnaround home on I | V",
    "pickup": "pickup e 1d 2b",
    "tip": "tip Let the 2 draw ring.",
    "play": 'play "Second chorus" x2',
    "every": "every I porch",
    "bars": "bars 1-4 porch x4",
    "bar": "bar 9 gate",
    "last": "last time bars 11-12 home",
    "|": "| I7 | IV7 | I7 I7 | V7 |",
}


def _last_word(line: Span) -> str:
    return line.text.split()[-1] if line.text.strip() else ""


def stray_mistake(mark: Mark, wanted_places: bool = False) -> Problem:
    """The problem of a word in music that is no mark; `wanted_places` in a rhythm."""
    text, span = mark.text, mark.span
    if any(text.count(quote) % 2 for quote in '"') or text[0] in "“”":
        return error("quote-open", span, found=text)
    if text[0] in "!{":
        return error("note-order", span, found=text)
    if _MIXED.fullmatch(text):
        return error("note-mixed", span, found=text)
    if note := _NOTE_LIKE.fullmatch(text):
        if re.search("0", re.sub("10", "", note["holes"])):
            return error("note-hole", span, found=text)
        tail = (note["rest"] or "").lower()
        guess = f"{note['holes']}{tail}" if re.fullmatch(r"o?[bd]'*", tail) else None
        return error("note-breath", span, found=text, holes=note["holes"], guess=guess)
    if _COUNT.fullmatch(text):
        return error("count-stray", span, found=text)
    if _VALUE_LIKE.fullmatch(text):
        return error("value-unknown", span, found=text)
    return error("mark-unknown", span, found=text, place=wanted_places)
