"""How a problem is shown: the message, its line, a mark under the exact span."""

from __future__ import annotations

import unicodedata
from typing import Any, NamedTuple

from formsheet.cells import cells
from formsheet.problems.problem import Hint, Problem
from formsheet.source import Span

_TAB_WIDTH = 4
_JOINERS = "\u200c\u200d"  # hidden for good reason: they shape letters and signs
_WIDEST_LINE = 100  # longer lines are shown as a window around the span


def _shown(text: str) -> str:
    """Text with tabs widened and characters made visible that a terminal obeys or hides."""
    spread = text.replace("\t", " " * _TAB_WIDTH)
    if spread.isprintable():
        return spread  # nothing to look at letter by letter
    return "".join("\N{REPLACEMENT CHARACTER}" if _hidden(c) else c for c in spread)


def _hidden(char: str) -> bool:
    """Control characters, line ends of other systems, spaces of no width, soft hyphens."""
    return unicodedata.category(char) in ("Cc", "Cf", "Zl", "Zp") and char not in _JOINERS


class LineParts(NamedTuple):
    """A line of a lesson as it is shown: before the span, under it, and after it."""

    line: int  # from 1
    before: str
    marked: str
    after: str


def shown_text(text: str) -> str:
    """Text with characters made visible that a terminal or a page obeys or hides."""
    return _shown(text)


def line_parts(span: Span) -> LineParts:
    """The span's line; a long one as a window around the span."""
    line, line_start = span.source.line_start(span.start)
    text = span.source.line_text(line)
    start = span.start - line_start
    end = min(len(text), start + max(1, span.end - span.start))
    left = max(0, start - _WIDEST_LINE // 2) if len(text) > _WIDEST_LINE else 0
    right = min(len(text), left + _WIDEST_LINE)
    end = max(start, min(end, right))
    before = ("… " if left else "") + text[left:start]
    after = text[end:right] + (" …" if right < len(text) else "")
    return LineParts(line, _shown(before), _shown(text[start:end]), _shown(after))


def marked_line(span: Span, label: str = "", mark: str = "^") -> list[str]:
    """The span's line with its number, and below it the mark and a label."""
    parts = line_parts(span)
    gutter = f"{parts.line:>5} | "
    marks = mark * max(1, cells(parts.marked))
    below = f"{' ' * 5} | {' ' * cells(parts.before)}{marks} {label}".rstrip()
    return [f"{gutter}{parts.before}{parts.marked}{parts.after}".rstrip(), below]


def drawn(problem: Problem) -> str:
    """The whole message for a terminal, without colour, ending without a line end."""
    name, line, column = problem.span.place
    head = f"{name}:{line}:{column}: {problem.severity.word}: "
    said = f"{head}{problem.message()} [{problem.code}]"
    lines = [_shown(said)]
    lines += marked_line(problem.span)
    for related in problem.related:
        if related.span.source is not problem.span.source:
            lines.append(_shown("      in {}:{}:{}".format(*related.span.place)))
        lines += marked_line(related.span, related.label, mark="-")
    lines += [f"      = {_shown(hint)}" for hint in hint_texts(problem)]
    return "\n".join(lines)


def as_data(problem: Problem) -> dict[str, Any]:
    """The problem for an editor: places counted from 1, the end being exclusive."""
    return {
        "code": problem.code,
        "severity": problem.severity.word,
        **_place(problem.span),
        "message": problem.message(),
        "hints": [_hint(hint) for hint in problem.hints()],
        "bars": list(problem.bars_heard),
        "related": [{**_place(r.span), "label": r.label} for r in problem.related],
    }


def hint_texts(problem: Problem) -> list[str]:
    """The words of its hints."""
    return [hint.text for hint in problem.hints()]


def _hint(hint: Hint) -> dict[str, Any]:
    edit = hint.edit
    return {
        "text": hint.text,
        "edit": edit and {**_place(edit.span), "text": edit.text, "certain": edit.certain},
    }


def _place(span: Span) -> dict[str, Any]:
    end_line, end_column = span.source.line_column(span.end)
    return {"file": span.source.name, "line": span.line, "column": span.column,
            "end_line": end_line, "end_column": end_column}  # fmt: skip
