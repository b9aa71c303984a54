"""The problems of a lesson in the order in which they matter. Our own choice.

The gravest first; of equals the one with a common cause for many (`explains_others`), then the one
that is heard in most bars, then the one that is written first.
"""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.problems.problem import Problem, has_errors

#: The problems that stand first.
MOST_FIRST = 3

BEFORE = "Before you print"
ALSO = "Also"


def ranked(problems: Sequence[Problem]) -> list[Problem]:
    """The problems, those that matter most first."""

    def rank(problem: Problem) -> tuple[int, bool, int, tuple[str, int, int]]:
        bars = len(problem.bars_heard)
        return -problem.severity, not problem.explains_others, -bars, problem.span.place

    return sorted(problems, key=rank)


def sections(problems: Sequence[Problem]) -> list[tuple[str, list[Problem]]]:
    """The problems under their headings; "" where there are errors, which come by place.

    Without errors the three that matter most come first, ranked; the others follow by place.
    """
    if not problems:
        return []
    if has_errors(problems):
        return [("", list(problems))]
    first = ranked(problems)[:MOST_FIRST]
    others = [problem for problem in problems if not any(problem is each for each in first)]
    found = [(BEFORE, first)]
    return [*found, (ALSO, others)] if others else found
