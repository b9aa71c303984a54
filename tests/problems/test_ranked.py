"""Which problems come first. The order and the number are our own choice."""

from __future__ import annotations

import pytest

from formsheet.problems.problem import Problem, Severity
from formsheet.problems.ranked import ALSO, BEFORE, LOOK, ranked, sections
from formsheet.source import Source, Span

TEXT = Source("test.lesson", "0123456789")


class Said(Problem):
    """A problem of any severity, heard in some bars."""

    bars: tuple[int, ...]
    grade: Severity
    common: bool
    heavy: float

    code = "said"
    bad = good = ""

    @property
    def severity(self) -> Severity:
        return self.grade

    @property
    def explains_others(self) -> bool:
        return self.common

    @property
    def weight(self) -> float:
        return self.heavy

    def message(self) -> str:
        return "said"


def said(
    at: int,
    grade: Severity = Severity.WARNING,
    bars: int = 1,
    common: bool = False,
    weight: float = 1.0,
) -> Problem:
    span = Span(TEXT, at, at + 1)
    return Said(span, bars=tuple(range(1, bars + 1)), grade=grade, common=common, heavy=weight)


def places(problems: list[Problem]) -> list[int]:
    return [problem.span.start for problem in problems]


def test_gravest_first_then_those_in_most_bars_then_by_place() -> None:
    remark = said(0, Severity.REMARK, bars=9)
    found = ranked([remark, said(1), said(2, bars=3), said(3), said(4, common=True)])
    assert places(found) == [4, 2, 1, 3, 0]


@pytest.mark.limit("problems.ranked.MOST_FIRST")
def test_three_stand_first_and_the_others_follow_by_place() -> None:
    remarks = [said(at, Severity.REMARK) for at in (0, 2)]
    problems = [*remarks, *map(said, (1, 3, 4, 5))]
    (first, three), (second, others) = sections(problems)
    assert (first, places(three), second, places(others)) == (BEFORE, [1, 3, 4], ALSO, [5, 0, 2])


def test_remarks_alone_are_worth_a_look() -> None:
    ((heading, found),) = sections([said(0, Severity.REMARK)])
    assert (heading, places(found)) == (LOOK, [0])


def test_of_equals_the_weightier_comes_first() -> None:
    assert places(ranked([said(0, bars=9), said(1, weight=2.0)])) == [1, 0]


def test_three_or_fewer_need_no_second_heading() -> None:
    assert [heading for heading, _ in sections([said(1), said(2), said(3)])] == [BEFORE]


def test_errors_are_mended_first_so_that_all_come_by_place() -> None:
    problems = [said(0, Severity.REMARK), said(1, Severity.ERROR), said(2)]
    ((heading, found),) = sections(problems)
    assert (heading, places(found)) == ("", [0, 1, 2])


def test_nothing_has_no_heading() -> None:
    assert sections([]) == []
