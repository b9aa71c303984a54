"""Every edit of every hint is applied: its problem is gone, and no other as grave has come.

Over the golden lessons, the lessons of `tests/colleague/` and the bad samples. `test_hints.py`
holds the golden lessons to more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.problems.edits import fact_set, line_below, moved_up
from formsheet.problems.problem import Edit, Problem, Sample, Severity
from formsheet.problems.registry import KINDS
from formsheet.problems.samples import bad_and_good
from formsheet.report.explained import problems_of_sample
from formsheet.source import Source, Span
from formsheet.stages import examine, examine_file
from tests.problems.golden import problems_of, problems_with

COLLEAGUE = Path(__file__).parents[1] / "colleague"

#: Kinds whose hint, once followed, lets more errors come to light than there were.
LEADS_ON = {
    ("marks-together", "bar-too-short"),  # a chord is one note where there were two
    ("pickup-bar-line", "pickup-no-room"),
    ("bar-too-long", "bar-too-short"),
    ("value-carried-round", "bar-too-long"),
    ("notes-at-once", "bar-too-long"),  # one after the other they take twice the time
}


class Case(NamedTuple):
    """A problem of a lesson, and which of its hints has the edit."""

    where: str  # "errors", "samples" or a colleague's lesson, "fit/p01-walk.lesson"
    code: str
    problem: int
    hint: int


def problems(where: str, code: str) -> tuple[Problem, ...]:
    if where == "errors":
        return problems_of(code)
    if where == "samples":
        return problems_of_sample(bad_and_good(KINDS[code])[0])
    return examine_file(COLLEAGUE / where, where, Shelves(COLLEAGUE)).problems


def problems_after(case: Case, text: str) -> tuple[Problem, ...]:
    if case.where == "errors":
        return problems_with(case.code, text)
    if case.where == "samples":
        sample = bad_and_good(KINDS[case.code])[0]
        return problems_of_sample(Sample(text.encode(), sample.name, sample.beside))
    return examine(Source(case.where, text, COLLEAGUE / case.where), Shelves(COLLEAGUE)).problems


def cases() -> Iterator[Case]:
    places = [(where, code) for where in ("errors", "samples") for code in KINDS]
    lessons = sorted(COLLEAGUE.rglob("*.lesson"))
    places += [(path.relative_to(COLLEAGUE).as_posix(), "") for path in lessons]
    for where, code in places:
        if where == "samples" and code == "problems-left":
            continue  # two hundred times the same
        for at, problem in enumerate(problems(where, code)):
            hints = enumerate(problem.hints())
            yield from (Case(where, code, at, number) for number, hint in hints if hint.edit)


ALL = list(cases())


def edit_of(case: Case) -> tuple[Problem, Edit]:
    problem = problems(case.where, case.code)[case.problem]
    edit = list(problem.hints())[case.hint].edit
    assert edit
    return problem, edit


def applied(edit: Edit) -> str:
    text = edit.span.source.text
    return text[: edit.span.start] + edit.text + text[edit.span.end :]


def as_grave(found: tuple[Problem, ...], severity: Severity) -> Counter[str]:
    return Counter(problem.code for problem in found if problem.severity >= severity)


@pytest.mark.parametrize("case", ALL, ids=lambda case: "-".join(map(str, case)))
def test_edit_mends(case: Case) -> None:
    problem, edit = edit_of(case)
    before = as_grave(problems(case.where, case.code), problem.severity)
    after = as_grave(problems_after(case, applied(edit)), problem.severity)
    assert after[problem.code] < before[problem.code]
    assert {code for code in after - before if (problem.code, code) not in LEADS_ON} == set()


@pytest.mark.parametrize("case", ALL, ids=lambda case: "-".join(map(str, case)))
def test_certain_edit_is_the_only_one(case: Case) -> None:
    problem, edit = edit_of(case)
    if edit.certain:
        assert [hint.edit for hint in problem.hints() if hint.edit] == [edit]


def test_edits_are_many() -> None:
    kinds = {edit_of(case)[0].code for case in ALL}
    assert len(kinds) >= 60
    assert {where.partition(".")[2] for where, *_ in ALL} == {"", "lesson"}


def test_edit_of_a_problem_on_a_shelf_is_of_the_shelf(tmp_path: Path) -> None:
    shelf = tmp_path / "turnarounds.licks"
    shelf.write_text("position 2nd\nturnaround home on I | V\n  q 2d 3d 4D 2d | w 1d\n")
    sample = bad_and_good(KINDS["shelf-unknown"])[1]
    lesson = tmp_path / "tune.lesson"
    lesson.write_text(str(sample.text))
    found = examine_file(lesson, "tune.lesson", Shelves(tmp_path)).problems
    (problem,) = [each for each in found if each.code == "note-capital"]
    (edit,) = [hint.edit for hint in problem.hints() if hint.edit]
    assert Path(edit.span.source.name).name == "turnarounds.licks"
    shelf.write_text(applied(edit))
    found = examine_file(lesson, "tune.lesson", Shelves(tmp_path)).problems
    assert "note-capital" not in {each.code for each in found}


# ---- Lines added and moved --------------------------------------------------------------------


def span_of(text: str, word: str) -> Span:
    at = text.index(word)
    return Span(Source("a.lesson", text), at, at + len(word))


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("play\n  every I a\n", "play\n  every V b\n  every I a\n"),
        ("play\r\n\tevery I a\r\n", "play\r\n\tevery V b\r\n\tevery I a\r\n"),
        ("play", "play\nevery V b"),
        ("play\n\nplay\n", "play\nevery V b\n\nplay\n"),
    ],
)
def test_line_below_is_indented_like_the_next(text: str, after: str) -> None:
    assert applied(line_below(span_of(text, "play"), "every V b")) == after


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("lick a on I\n  w 2d\nlearn 60\n", "learn 60\nlick a on I\n  w 2d\n"),
        ("lick a on I\r\n  w 2d\r\nlearn 60", "learn 60\r\nlick a on I\r\n  w 2d\r\n"),
        (
            "harp C\n\n# The licks\nlick a on I\n  w 2d\nlearn 60\nplay\n",
            "harp C\nlearn 60\n\n# The licks\nlick a on I\n  w 2d\nplay\n",
        ),
    ],
)
def test_line_moved_up(text: str, after: str) -> None:
    assert applied(moved_up(span_of(text, "learn"), span_of(text, "lick"))) == after


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("tempo     100\nlick\n", "tempo     100\nlevel     advanced\nlick\n"),
        ("tempo 100", "tempo 100\nlevel advanced"),
        (
            "feel swing\r\ntempo 100  # slow\r\n",
            "feel swing\r\ntempo 100  # slow\r\nlevel advanced\r\n",
        ),
    ],
)
def test_fact_is_added_below_the_tempo(text: str, after: str) -> None:
    assert applied(fact_set({"tempo": span_of(text, "100")}, "level", "advanced")) == after


def test_fact_that_is_there_is_changed() -> None:
    text = "level beginner\ntempo 100\n"
    places = {"level": span_of(text, "beginner"), "tempo": span_of(text, "100")}
    assert applied(fact_set(places, "level", "advanced")) == "level advanced\ntempo 100\n"
