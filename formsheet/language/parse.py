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
from formsheet.language.tables import make_parser
from formsheet.language.tree import FileTree, Line, UnreadLine, Word
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span
from formsheet.vocabulary.facts import newer_language

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
    try:
        return _read(Span(source, 0, len(source.text))), []
    except UnexpectedInput:
        return _parse_line_by_line(source)


def _read(span: Span) -> list[Line]:
    parser, builder = _parser()
    builder.begin(span.source)
    lines = parser.parse(TextSlice(span.source.text, span.start, span.end))
    return cast("list[Line]", lines)


def _parse_line_by_line(source: Source) -> tuple[list[Line], list[Problem]]:
    from formsheet.language.mistakes import line_mistake  # most files hold none

    lines: list[Line] = []
    problems: list[Problem] = []
    start = 0
    for text in source.text.split("\n"):
        span = Span(source, start, start + len(text.rstrip()))
        try:
            lines += _read(span)
        except UnexpectedInput as caught:
            problems.append(line_mistake(caught, span))
            lines.append(UnreadLine(_first_words(span)))
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
