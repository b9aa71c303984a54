"""The problems of a lesson in the order in which they matter. Our own choice.

The gravest first; of equals the one with a common cause for many (`explains_others`), then by
`weight` (a wrong note weighs as many beats as it stays), then the one that is heard in most bars,
then the one that is written first.
"""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.problems.problem import WARNING, Problem, has_errors

#: The problems that stand first.
MOST_FIRST = 3

BEFORE = "Before you print"
ALSO = "Also"
LOOK = "Worth a look"


def ranked(problems: Sequence[Problem]) -> list[Problem]:
    """The problems, those that matter most first."""

    def rank(problem: Problem) -> tuple[int, bool, float, int, tuple[str, int, int]]:
        bars = len(problem.bars_heard)
        causes = not problem.explains_others
        return -problem.severity, causes, -problem.weight, -bars, problem.span.place

    return sorted(problems, key=rank)


def sections(problems: Sequence[Problem]) -> list[tuple[str, list[Problem]]]:
    """The problems under their headings; "" where there are errors, which come by place.

    Without errors the three warnings that matter most come first; the others follow in the same
    order. Remarks alone are worth a look, no more.
    """
    if has_errors(problems):
        return [("", list(problems))]
    ordered = ranked(problems)
    first = [each for each in ordered if each.severity is WARNING][:MOST_FIRST]
    others = ordered[len(first) :]
    found = [(BEFORE, first), (ALSO if first else LOOK, others)]
    return [(heading, part) for heading, part in found if part]
