"""Text to syntax tree. The parser library is used here and in `lines.py` only.

The whole file is parsed at once. Where that fails, each line is parsed by itself, so that a
slip costs its own line and every other line is still read and judged.
"""

from __future__ import annotations

from functools import cache
from typing import cast

from lark import Lark, TextSlice, UnexpectedInput

from formsheet.language.blocks import gather
from formsheet.language.lines import LineBuilder
from formsheet.language.parted import second_fact
from formsheet.language.tables import make_parser
from formsheet.language.tree import FileTree, Line, UnreadLine, Word
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span
from formsheet.vocabulary.facts import newer_language
from formsheet.vocabulary.quotes import plain_quotes

_FIRST_WORDS = 3  # of a line that cannot be read: enough for its keyword and its name


@cache
def _parser() -> tuple[Lark, LineBuilder]:
    builder = LineBuilder()
    return make_parser(builder), builder


def parse(source: Source) -> tuple[FileTree, list[Problem]]:
    """The syntax tree of a lesson or shelf, and the problems of its lines and blocks.

    Nothing is read of a file for a newer version of the language, and that is its only problem.
    """
    if newer := newer_language(source):
        return FileTree(source, newer=True), [newer]
    lines, problems = parse_lines(source)
    tree, more = gather(source, lines)
    return tree, problems + more


def parse_lines(source: Source) -> tuple[list[Line], list[Problem]]:
    """The lines of a file that say something, each by itself, and the problems of the others."""
    plain = plain_quotes(source.text)
    problems: list[Problem] = []
    try:
        lines = _read(source, plain, 0, len(source.text))
    except UnexpectedInput:
        lines, problems = _parse_line_by_line(source, plain)
    if any(map(second_fact, lines)):
        return _facts_apart(source, plain, lines, problems)
    return lines, problems


def _read(source: Source, plain: str, start: int, end: int) -> list[Line]:
    """The lines of a stretch; `plain` is the text with its quotes as the grammar has them."""
    parser, builder = _parser()
    builder.begin(source)
    lines = parser.parse(TextSlice(plain, start, end))
    return cast("list[Line]", lines)


def _facts_apart(
    source: Source, plain: str, lines: list[Line], problems: list[Problem]
) -> tuple[list[Line], list[Problem]]:
    """The lines, those cut in two that hold two facts."""
    from formsheet.problems import kinds

    waiting, done, problems = lines[::-1], [], [*problems]
    while waiting:
        line = waiting.pop()
        if not (second := second_fact(line)):
            done.append(line)
            continue
        done.append(second.first)
        place, end = second.place, source.text.find("\n", second.place.start)
        rest = Span(source, place.start, end if end >= 0 else len(source.text))
        problems.append(
            kinds.FactsOnALine(place, first=second.keyword, second=place.text, at=second.end)
        )
        try:
            waiting += _read(source, plain, rest.start, rest.end)[::-1]
        except UnexpectedInput:
            waiting.append(UnreadLine(_first_words(rest)))
    return done, problems


def _parse_line_by_line(source: Source, plain: str) -> tuple[list[Line], list[Problem]]:
    from formsheet.language.mistakes import line_mistake, meant_words  # most files hold none

    lines: list[Line] = []
    problems: list[Problem] = []
    start = 0
    for text in source.text.split("\n"):
        span = Span(source, start, start + len(text.rstrip()))
        try:
            lines += _read(source, plain, span.start, span.end)
        except UnexpectedInput as caught:
            problems.append(problem := line_mistake(caught, span))
            lines.append(UnreadLine(meant_words(problem, _first_words(span))))
        start += len(text) + 1
    return lines, problems


def _first_words(line: Span) -> tuple[Word, ...]:
    words = []
    at = line.start
    for text in line.text.split(None, _FIRST_WORDS)[:_FIRST_WORDS]:
        at = line.source.text.index(text, at)
        words.append(Word(text, Span(line.source, at, at + len(text))))
        at += len(text)
    return tuple(words)
