"""Problems in order, each once, and no more than anybody mends."""

from __future__ import annotations

import pytest

from formsheet.problems import kinds
from formsheet.problems.problem import (
    MOST_SHOWN,
    Problem,
    Severity,
    in_order,
    most_shown,
)
from formsheet.problems.registry import by_code
from formsheet.source import Source, Span

_SOURCE = Source("a.lesson", "x" * 1000)


def _at(place: int) -> Span:
    return Span(_SOURCE, place, place + 1)


def test_each_once_by_place_the_graver_first() -> None:
    told = [
        kinds.LickUnused(_at(5), lick="a", where="bar 1"),
        kinds.HoldNothing(_at(5)),
        kinds.HoldNothing(_at(2)),
        kinds.LickUnused(_at(5), lick="a", where="bar 1"),
        kinds.LickUnused(_at(5), lick="b", where="bar 1"),
    ]
    assert in_order(told) == [told[2], told[1], told[0], told[4]]


# Our own choice: 200.
@pytest.mark.limit("problems.problem.MOST_SHOWN")
@pytest.mark.parametrize(("count", "left"), [(200, 0), (201, 1)])
def test_as_many_as_are_told(count: int, left: int) -> None:
    found = [kinds.HoldNothing(_at(place)) for place in range(count)]
    told = most_shown(found)
    assert told[:200] == found[:200]
    assert [problem.fields["count"] for problem in told[200:]] == [1] * left


def test_of_too_many_the_gravest_are_told_and_how_many_are_left() -> None:
    remarks = [kinds.LickUnused(_at(place), lick="a", where="bar 1") for place in range(0, 600, 2)]
    errors = [kinds.HoldNothing(_at(place)) for place in range(1, 101, 2)]
    told = most_shown([*remarks, *errors])
    assert [problem for problem in told if problem.severity is Severity.ERROR] == errors
    assert [p for p in told if p.code == "lick-unused"] == remarks[: MOST_SHOWN - len(errors)]
    (left,) = [problem for problem in told if problem.code == "problems-left"]
    assert left.fields["count"] == len(remarks) + len(errors) - MOST_SHOWN
    assert left.severity is Severity.REMARK
    assert left.span == _at(300)


def test_what_is_left_is_as_grave_as_the_gravest_of_it() -> None:
    problems: list[Problem] = [
        kinds.GlyphMissing(_at(place), signs="a", more="") for place in range(MOST_SHOWN + 2)
    ]
    assert most_shown(problems)[-1].severity is Severity.WARNING


def test_two_kinds_cannot_have_one_code() -> None:
    with pytest.raises(ValueError, match="LickTwice and LickTwice have the code lick-twice"):
        by_code([kinds.LickTwice, type("LickTwice", (kinds.LickTwice,), {})])


def test_a_kind_that_is_not_there_has_no_name() -> None:
    with pytest.raises(AttributeError, match="no attribute 'LickThrice'"):
        getattr(kinds, "LickThrice")  # noqa: B009
