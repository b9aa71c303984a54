"""A problem as data: which kind, how grave, where, and the facts that its words need."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum
from typing import Any, NamedTuple

from formsheet.source import Span


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
    unique = {(p.slug, p.span.place, p.span.end, str(p.facts)): p for p in problems}
    return sorted(unique.values(), key=lambda p: (p.span.place, -p.severity))


def has_errors(problems: Iterable[Problem]) -> bool:
    """Whether any of the problems is an error."""
    return any(problem.severity is Severity.ERROR for problem in problems)
