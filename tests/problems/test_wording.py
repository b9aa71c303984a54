"""Facts to words: lists, bars, half steps, and what is left out."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from formsheet.problems.problem import error
from formsheet.problems.wording import WORDING, words
from formsheet.source import Source, Span

NOWHERE = Span(Source("a.lesson", ""), 0, 0)


def message(slug: str, **facts: Any) -> str:
    return words(error(slug, NOWHERE, **facts))[0]


def hints(slug: str, **facts: Any) -> list[str]:
    return words(error(slug, NOWHERE, **facts))[1]


@pytest.mark.parametrize(
    ("bars", "said"),
    [([9], "bar 9"), ([5, 6], "bars 5 and 6"), ([5, 6, 10], "bars 5, 6 and 10"),
     ([1, 2, 3], "bars 1-3"), ([1, 2, 3, 4, 7, 8, 11], "bars 1-4, 7, 8 and 11"),
     ([1, 2, 3, 9, 10, 11, 12], "bars 1-3 and 9-12")],
)  # fmt: skip
def test_bars(bars: list[int], said: str) -> None:
    assert (
        message("bar-without-lick", bars=bars, when="", chord="V7")
        == f"nothing is placed in {said}, on V7"
    )


@pytest.mark.parametrize(
    ("asked", "said"),
    [(1, "a half step"), (2, "a whole step"), (3, "a step and a half"), (5, "5 half steps")],
)
def test_half_steps(asked: int, said: str) -> None:
    told = message("bend-too-deep", hole=3, breath="draw", asked=asked, deepest=1)
    assert told == f"3 draw does not bend {said}; on this harp it bends a half step"


@pytest.mark.parametrize(
    ("known", "said"),
    [(["a"], "`a`"), (["a", "b"], "`a` or `b`"), (["a", "b", "c"], "`a`, `b` or `c`")],
)
def test_list(known: list[str], said: str) -> None:
    assert hints("lick-unknown", found="z", known=known) == [f"the licks here are {said}"]


@pytest.mark.parametrize("nothing", [None, "", [], ()])
def test_hint_without_its_fact_is_left_out(nothing: object) -> None:
    assert hints("lick-unknown", found="z", known=["a"], near=nothing) == ["the licks here are `a`"]


def test_fraction() -> None:
    told = message("swing-short-note", tempo=Fraction(481, 2), have=83, least=100)
    assert told.startswith("at 240.5 beats a minute")


@pytest.mark.parametrize("slug", WORDING)
def test_backquotes_are_in_pairs(slug: str) -> None:
    entry = WORDING[slug]
    assert not [said for said in (entry.message, *entry.hints) if said.count("`") % 2]


@pytest.mark.parametrize("slug", WORDING)
def test_message_begins_small_and_ends_open(slug: str) -> None:
    said = WORDING[slug].message
    assert not said[0].isupper()
    assert not said.endswith((".", "!"))


# Our own choice: 24 names at most, the last of them in place of those left out.
@pytest.mark.limit("problems.wording._MOST_LISTED")
@pytest.mark.parametrize(
    ("count", "end"), [(24, "`a22` or `a23`"), (25, "`a22` or one of 2 others")]
)
def test_long_list(count: int, end: str) -> None:
    (hint,) = hints("lick-unknown", found="z", known=[f"a{number:02}" for number in range(count)])
    assert hint.endswith(end)
