"""A file set anew: the same words and comments, lined up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from formsheet.language import tree as t
from formsheet.language.blocks import gather
from formsheet.language.meaning import meaning
from formsheet.language.parse import parse, parse_lines
from formsheet.language.writer import BLANK, Row, rows_text
from formsheet.problems.problem import Problem, has_errors
from formsheet.source import Source, Span
from formsheet.vocabulary.facts import newer_language


def tidied(source: Source) -> tuple[str | None, list[Problem]]:
    """The file's text, tidy; None with its problems where a line of it cannot be read."""
    if newer := newer_language(source):
        return None, [newer]
    lines, problems = parse_lines(source)
    tree, more = gather(source, lines)
    if has_errors(problems + more):
        return None, problems + more
    text = rows_text(_rows(source, lines))
    if "\r\n" in source.text:
        text = text.replace("\n", "\r\n")
    again, _ = parse(Source(source.name, text, source.path))
    if meaning(again) != meaning(tree):
        raise AssertionError(f"{source.name}: tidying would change what it says")
    return text, []


def _rows(source: Source, lines: Sequence[t.Line]) -> list[Row]:
    """The file line by line, with its comments."""
    by_number = {min(span.start for span in _spans(line)): line for line in lines}
    starts = sorted(by_number)
    rows: list[Row] = []
    at = start = 0
    for text in source.text.split("\n"):
        end = start + len(text)
        if at < len(starts) and starts[at] < end:
            line = by_number[starts[at]]
            said = max(span.end for span in _spans(line))
            rows.append(Row(line, _comment(source.text[said:end])))
            at += 1
        elif comment := _comment(text):
            rows.append(Row(comment=comment, indented=text[0].isspace()))
        else:
            rows.append(BLANK)
        start = end + 1
    return rows


def _comment(text: str) -> str:
    """The comment in a stretch of a line without quotes, from its `#`."""
    _, sign, words = text.partition("#")
    return f"#{words.rstrip()}" if sign else ""


def _spans(part: Any) -> Iterator[Span]:
    """Every place in a part of the tree."""
    if isinstance(part, Span):
        yield part
    elif isinstance(part, tuple):
        for item in part:
            yield from _spans(item)
