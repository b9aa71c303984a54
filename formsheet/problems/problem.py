"""A problem as data: which kind, how grave, where, and the facts that its words need."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum
from typing import Any, NamedTuple

from formsheet.source import Span

#: Problems of one lesson that are told: more than anybody mends before the next look. A file
#: that is no lesson at all would have one in every word.
MOST_TOLD = 200


class Severity(IntEnum):
    """How grave a problem is. Only errors keep a handout from being made."""

    REMARK = 0
    WARNING = 1
    ERROR = 2

    @property
    def word(self) -> str:
        """The severity as it is printed."""
        return self.name.lower()


class Related(NamedTuple):
    """Another place that belongs to a problem, with the words to put there."""

    span: Span
    label: str


@dataclass(frozen=True)
class Problem:
    """One problem. `slug` names its kind for good: its wording and its test file go by it."""

    slug: str
    span: Span
    facts: dict[str, Any] = field(default_factory=dict)
    severity: Severity = Severity.ERROR
    related: tuple[Related, ...] = ()


def error(slug: str, span: Span, *related: Related, **facts: Any) -> Problem:
    """An error: the handout cannot be made."""
    return Problem(slug, span, facts, Severity.ERROR, related)


def warning(slug: str, span: Span, *related: Related, **facts: Any) -> Problem:
    """A warning: the handout can be made, but the teacher would want to know."""
    return Problem(slug, span, facts, Severity.WARNING, related)


def remark(slug: str, span: Span, *related: Related, **facts: Any) -> Problem:
    """A remark: nothing is wrong."""
    return Problem(slug, span, facts, Severity.REMARK, related)


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """The problems sorted by file and place, each one once."""
    alike: dict[tuple[object, ...], list[Problem]] = {}
    for problem in problems:
        span = problem.span
        told = alike.setdefault((problem.slug, span.source.name, span.start, span.end), [])
        if all(problem.facts != other.facts for other in told):
            told.append(problem)
    unique = [problem for told in alike.values() for problem in told]
    return sorted(unique, key=lambda p: (p.span.place, -p.severity))


def most_told(problems: Iterable[Problem]) -> list[Problem]:
    """The problems in order; of too many the gravest, and how many are left."""
    ordered = in_order(problems)
    if len(ordered) <= MOST_TOLD:
        return ordered
    gravest = sorted(ordered, key=lambda problem: -problem.severity)
    left = gravest[MOST_TOLD:]
    more = Problem("problems-left", left[0].span, {"count": len(left)}, left[0].severity)
    return in_order([*gravest[:MOST_TOLD], more])


def has_errors(problems: Iterable[Problem]) -> bool:
    """Whether any of the problems is an error."""
    return any(problem.severity is Severity.ERROR for problem in problems)
