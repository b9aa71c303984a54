"""Bars in which no chord tone lands."""

from __future__ import annotations

import pytest

from formsheet.problems.problem import Problem, Severity
from tests.helpers import over, problems_of, slugs_of


def finding(music: str, chords: str = "V7") -> Problem:
    (found,) = [p for p in problems_of(over(chords, music)) if p.code == "landing-missing"]
    return found


def test_a_bar_without_its_chord_is_told() -> None:
    problem = finding("h 6b 5b")  # over D7 in G: G and E
    assert (problem.severity, problem.fields["degree"]) == (Severity.WARNING, "4")


def test_a_bar_that_stays_on_blue_notes_is_a_remark() -> None:
    assert finding("h 2d 6b").severity is Severity.REMARK  # over D7 in G: the key note twice


@pytest.mark.parametrize("music", ["h 4d 5b", "h 6b 4d", "w 6d", "h 6b 4d'!", "q 6b h - q 1d"])
def test_one_landing_on_the_chord_is_enough(music: str) -> None:
    assert "landing-missing" not in slugs_of(over("V7", music))


def test_a_rest_is_no_bar_without_its_chord() -> None:
    assert slugs_of(over("V7 | V7", "w 4d | w -")) == []


def test_a_clash_is_told_once() -> None:
    assert slugs_of(over("IV7", "h 3d 6d'")).count("landing-missing") == 0


@pytest.mark.parametrize("music", ["h 6b 5b", "q 6b 6b 5b -", "e 2d 5b q 6b h 2d"])
def test_every_root_offered_removes_the_finding(music: str) -> None:
    problem = finding(music)
    old = problem.span.text
    assert problem.fields["roots"]
    for root in problem.fields["roots"]:
        changed = over("V7", music.replace(old, root, 1))
        assert "landing-missing" not in slugs_of(changed)


# Our own choice: three are enough to choose from. The harp has G four times without a bend.
@pytest.mark.limit("judge.landings._MOST_ROOTS")
def test_three_roots_are_offered_the_nearest_ones() -> None:
    assert finding("h 4b 6d", "I7").fields["roots"] == ["3b", "2d", "6b"]


def test_a_chord_tone_in_passing_is_no_landing() -> None:
    assert "landing-missing" in slugs_of(over("V7", "q. 6b e 4d h 5b"))
