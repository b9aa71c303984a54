"""Fields to words: lists, bars, half steps, and hints that are left out."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.problems import kinds
from formsheet.problems.drawing import hint_texts
from formsheet.problems.registry import KINDS, meaning
from formsheet.source import Source, Span
from tests.problems.golden import problems_of

NOWHERE = Span(Source("a.lesson", ""), 0, 0)

each_kind = pytest.mark.parametrize("code", KINDS)


@pytest.mark.parametrize(
    ("bars", "said"),
    [([9], "bar 9"), ([5, 6], "bars 5 and 6"), ([5, 6, 10], "bars 5, 6 and 10"),
     ([1, 2, 3], "bars 1-3"), ([1, 2, 3, 4, 7, 8, 11], "bars 1-4, 7, 8 and 11"),
     ([1, 2, 3, 9, 10, 11, 12], "bars 1-3 and 9-12")],
)  # fmt: skip
def test_bars(bars: list[int], said: str) -> None:
    problem = kinds.BarWithoutLick(NOWHERE, bars=bars, when="", chord="V7", chords=())
    assert problem.message() in (f"{said} (V7) has no lick", f"{said} (V7) have no lick")


@pytest.mark.parametrize(
    ("asked", "said"),
    [(1, "a half step"), (2, "a whole step"), (3, "a step and a half"), (5, "5 half steps")],
)
def test_half_steps(asked: int, said: str) -> None:
    problem = kinds.BendTooDeep(NOWHERE, hole=3, breath="draw", asked=asked, deepest=1, guess="3d'")
    assert problem.message() == f"3 draw does not bend {said}; on this harp it bends a half step"


@pytest.mark.parametrize(
    ("known", "said"),
    [(["a"], "`a`"), (["a", "b"], "`a` or `b`"), (["a", "b", "c"], "`a`, `b` or `c`")],
)
def test_list(known: list[str], said: str) -> None:
    problem = kinds.LickUnknown(NOWHERE, found="z", shelf=None, near=None, known=known)
    assert hint_texts(problem) == [f"the licks here are {said}"]


@pytest.mark.parametrize("nothing", [None, ""])
def test_hint_without_its_field_is_left_out(nothing: str | None) -> None:
    problem = kinds.LickUnknown(NOWHERE, found="z", shelf=None, near=nothing, known=["a"])
    assert hint_texts(problem) == ["the licks here are `a`"]


@pytest.mark.parametrize("nothing", [[], ()])
def test_hint_that_would_list_nothing_is_left_out(nothing: list[str]) -> None:
    problem = kinds.LickUnknown(NOWHERE, found="z", shelf=None, near="a", known=nothing)
    assert hint_texts(problem) == ["did you mean `a`?"]


def test_fraction() -> None:
    problem = kinds.SwingShortNote(NOWHERE, tempo=Fraction(481, 2), have=83, least=100, share=None)
    assert problem.message().startswith("at 240.5 beats a minute")


@each_kind
def test_backquotes_are_in_pairs(code: str) -> None:
    (problem,) = problems_of(code)
    assert not [s for s in (problem.message(), *hint_texts(problem)) if s.count("`") % 2]


@each_kind
def test_message_begins_small_and_ends_open(code: str) -> None:
    (problem,) = problems_of(code)
    said = problem.message()
    assert not said[0].isupper()
    assert not said.endswith((".", "!"))


@each_kind
def test_meaning_is_a_sentence(code: str) -> None:
    said = meaning(KINDS[code])
    assert said[0].isupper()
    assert said.endswith(".")


# Our own choice: 24 names at most, the last of them in place of those left out.
@pytest.mark.limit("problems.words._MOST_LISTED")
@pytest.mark.parametrize(
    ("count", "end"), [(24, "`a22` or `a23`"), (25, "`a22` or one of 2 others")]
)
def test_long_list(count: int, end: str) -> None:
    known = [f"a{number:02}" for number in range(count)]
    problem = kinds.LickUnknown(NOWHERE, found="z", shelf=None, near=None, known=known)
    assert hint_texts(problem)[0].endswith(end)
