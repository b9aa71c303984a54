"""Problems in order, each once, and no more than anybody mends."""

from __future__ import annotations

import pytest

from formsheet.problems.problem import (
    MOST_TOLD,
    Problem,
    Severity,
    error,
    in_order,
    most_told,
    remark,
    warning,
)
from formsheet.source import Source, Span

_SOURCE = Source("a.lesson", "x" * 1000)


def _at(place: int) -> Span:
    return Span(_SOURCE, place, place + 1)


def test_each_once_by_place_the_graver_first() -> None:
    told = [
        remark("lick-unused", _at(5), lick="a"),
        error("hold-nothing", _at(5)),
        error("hold-nothing", _at(2)),
        remark("lick-unused", _at(5), lick="a"),
        remark("lick-unused", _at(5), lick="b"),
    ]
    assert in_order(told) == [told[2], told[1], told[0], told[4]]


# Our own choice: 200.
@pytest.mark.limit("problems.problem.MOST_TOLD")
@pytest.mark.parametrize(("count", "left"), [(200, 0), (201, 1)])
def test_as_many_as_are_told(count: int, left: int) -> None:
    found = [error("hold-nothing", _at(place)) for place in range(count)]
    told = most_told(found)
    assert told[:200] == found[:200]
    assert [problem.facts["count"] for problem in told[200:]] == [1] * left


def test_of_too_many_the_gravest_are_told_and_how_many_are_left() -> None:
    remarks = [remark("lick-unused", _at(place), lick="a") for place in range(0, 600, 2)]
    errors = [error("hold-nothing", _at(place)) for place in range(1, 101, 2)]
    told = most_told([*remarks, *errors])
    assert [problem for problem in told if problem.severity is Severity.ERROR] == errors
    assert [p for p in told if p.slug == "lick-unused"] == remarks[: MOST_TOLD - len(errors)]
    (left,) = [problem for problem in told if problem.slug == "problems-left"]
    assert left.facts == {"count": len(remarks) + len(errors) - MOST_TOLD}
    assert left.severity is Severity.REMARK
    assert left.span == _at(300)


def test_what_is_left_is_as_grave_as_the_gravest_of_it() -> None:
    problems: list[Problem] = [
        warning("glyph-missing", _at(place)) for place in range(MOST_TOLD + 2)
    ]
    assert most_told(problems)[-1].severity is Severity.WARNING
