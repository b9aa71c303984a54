"""Edits that add, move or take out whole lines and marks, in the way the file is written."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from formsheet.problems.problem import Edit
from formsheet.source import Source, Span


def removed(span: Span, *, certain: bool = False) -> Edit:
    """A mark taken out, with the spaces before it."""
    before = span.source.text[: span.start]
    return Edit(span._replace(start=len(before.rstrip(" \t"))), "", certain)


def together(changes: Sequence[tuple[Span, str]]) -> Edit:
    """Texts in place of spans of one file, as one edit: what lies between them is kept."""
    ordered = sorted(changes, key=lambda change: change[0].start)
    source, start = ordered[0][0].source, ordered[0][0].start
    text, at = "", start
    for span, new in ordered:
        text += source.text[at : span.start] + new
        at = span.end
    return Edit(Span(source, start, at), text, certain=False)


def without_braces(span: Span) -> Edit | None:
    """The braces after a note taken out; None where they are not where they are expected."""
    found = re.compile(r"(!?)[ \t]*\{[^}\n]*\}").match(span.source.text, span.end)
    if found is None:
        return None
    return Edit(span._replace(start=found.end(1), end=found.end()), "", certain=False)


def inserted(span: Span, text: str, *, certain: bool = False) -> Edit:
    """A text put in at the start of the span."""
    return Edit(span._replace(end=span.start), text, certain)


def line_above(span: Span, line: str, *, certain: bool = False) -> Edit:
    """A line put in above the line of the span, at the margin."""
    start = _line_start(span.source, span.start)
    return Edit(Span(span.source, start, start), line + line_end(span.source), certain)


def line_below(span: Span, line: str, *, certain: bool = False) -> Edit:
    """A line put in below the line of the span, indented like the next one if that is indented."""
    source = span.source
    at = _text_end(source, span.end)
    following = re.match(r"\r?\n([^\S\r\n]*)\S", source.text[at:])
    own = re.match(r"[^\S\r\n]*", source.text[_line_start(source, span.start) :])
    indent = (following and following[1]) or (own and own[0]) or ""
    return Edit(Span(source, at, at), f"{line_end(source)}{indent}{line}", certain)


def fact_set(places: Mapping[str, Span], fact: str, value: str) -> Edit:
    """A fact given another value, or added below the tempo, its value in the same column."""
    if fact in places:
        return Edit(places[fact], value, certain=False)
    tempo = places["tempo"]
    start = _line_start(tempo.source, tempo.start)
    lead = tempo.source.text[start : tempo.start]
    width = max(len(lead), len(fact) + 1)
    at = _text_end(tempo.source, tempo.end)
    text = f"{line_end(tempo.source)}{fact:<{width}}{value}"
    return Edit(Span(tempo.source, at, at), text, certain=False)


def moved_up(span: Span, before: Span, *, certain: bool = False) -> Edit:
    """The line of a span moved above an earlier one, and above the comments over that.

    One edit: what lies between is written anew.
    """
    source = span.source
    text = source.text
    to = _line_start(source, before.start)
    while to:
        above = _line_start(source, to - 1)
        line = text[above:to].strip()
        if line and not line.startswith("#"):
            break
        to = above
    start, end = _line_start(source, span.start), text.find("\n", span.end) + 1
    line, end = (text[start:end], end) if end else (text[start:] + line_end(source), len(text))
    return Edit(Span(source, to, end), line + text[to:start], certain)


def _line_start(source: Source, at: int) -> int:
    return source.text.rfind("\n", 0, at) + 1


def _text_end(source: Source, at: int) -> int:
    """Where the text of a line ends, before its line end."""
    end = source.text.find("\n", at)
    end = len(source.text) if end < 0 else end
    return end - 1 if source.text[at:end].endswith("\r") else end


def line_end(source: Source) -> str:
    """What ends a line of the file."""
    return "\r\n" if "\r\n" in source.text else "\n"
