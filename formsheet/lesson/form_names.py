"""Names of forms that the grammar cannot read."""

from __future__ import annotations

import re
from collections.abc import Sequence

from formsheet.music.form import FORMS
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.vocabulary.misnamed import form_meant, form_with_bar_lines


def with_forms(problems: Sequence[Problem]) -> list[Problem]:
    """The problems; a comma in the name of a form is a name that is not known."""
    return [_form_named(each) or each for each in problems]


def _form_named(problem: Problem) -> Problem | None:
    if not (isinstance(problem, kinds.WordUnexpected) and problem.found == ","):
        return None
    source = problem.span.source
    start = source.text.rfind("\n", 0, problem.span.start) + 1
    line = re.match(r"[^\S\n]*form[^\S\n]+([^\"|#\n]*\S)", source.text[start:])
    if not line:
        return None
    near, with_bar_lines = form_meant(line[1]), form_with_bar_lines(line[1])
    if not (near or with_bar_lines):
        return None
    span = Span(source, start + line.start(1), start + line.end(1))
    return kinds.FormUnknown(
        span,
        found=line[1],
        near=near,
        known=list(FORMS),
        own=True,
        with_bar_lines=with_bar_lines,
    )
