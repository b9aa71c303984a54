"""What is offered instead of a clash: chord tones on this harp, fewest bends first."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from formsheet.music.harp import HARP_KEYS
from formsheet.problems.problem import Problem
from tests.helpers import examined, lesson_text, over, told
from tests.judge.test_fit import bar

few = settings(max_examples=30, derandomize=True, deadline=None, database=None)


def fit_problems(text: str) -> list[Problem]:
    found = examined(text)
    assert found.tune, told(found.problems)
    return [p for p in found.problems if p.code.startswith("note-")]


def offers(chord: str, tab: str, **facts: str) -> str:
    (problem,) = fit_problems(over(chord, f"h {tab} -", **facts))
    return " ".join(problem.fields["offers"])


# Our own choice: three offers, within a major third.
# Worked by hand on a C harp: notes within a major third, fewest bends first, then the same
# breath, then the nearest.
@pytest.mark.limit("judge.offers._NEAR", "judge.offers._MOST_OFFERS")
@pytest.mark.parametrize(
    ("chord", "tab", "offered"),
    [
        # Over C7, for B4: G4 by 2 draw and 3 blow, C5 and E5 by blow... 2 draw is a third away.
        ("IV7", "3d", "2d 4b 3b"),
        # An octave up: 7 draw is B5; C6 is 7 blow, G5 6 blow; Bb5 needs an overblow: not offered.
        ("IV7", "7d", "7b 6b"),
        # Over D7, for C#5: D5 by 4 draw, C5 by 4 blow, A4 by 3 draw a whole step down.
        ("V7", "4d'", "4d 4b 3d''"),
        # Over G7, for F#4 by 2 draw bent: G4, F4 by a whole step; D4 by 1 draw.
        ("I7", "2d'", "2d 1d 3b"),
    ],
)
def test_single_notes(chord: str, tab: str, offered: str) -> None:
    assert offers(chord, tab) == offered


@pytest.mark.parametrize(
    ("chord", "tab", "offered"),
    [
        # Two-hole blocks of C7 are blow: C E, E G, G C, C E, ...
        ("IV7", "34d", "34b 23b 45b"),
        # Three draws over C7: C E G blocks by blow, nearest first.
        ("IV7", "234d", "234b 123b 345b"),
    ],
)
def test_blocks(chord: str, tab: str, offered: str) -> None:
    assert offers(chord, tab) == offered


def pasted(text: str, problem: Problem, offer: str) -> str:
    return text[: problem.span.start] + offer + text[problem.span.end :]


@few
@given(
    st.lists(bar(), min_size=3, max_size=3),
    st.sampled_from(["I7 | IV7 | V7", "I7 | ii7 | VI7", "i | iv | V7", "I IV | I V | bVI7"]),
    st.sampled_from(["1st", "2nd", "3rd", "5th", "12th"]),
    st.sampled_from(["richter", "country", "natural minor", "harmonic minor"]),
    st.sampled_from(HARP_KEYS),
)
def test_every_offer_pasted_in_removes_its_finding(
    bars: list[str], chords: str, position: str, tuning: str, key: str
) -> None:
    music = " | ".join(bars)
    text = over(chords, music, position=position, harp=key, tuning=tuning)
    assume(examined(text).tune)  # overbends differ from tuning to tuning
    for problem in fit_problems(text):
        for offer in problem.fields["offers"]:
            again = fit_problems(pasted(text, problem, offer))
            assert not [
                p for p in again
                if p.span.start == problem.span.start
                and p.fields["letter"] == problem.fields["letter"]
            ], (offer, told((problem,)))  # fmt: skip


def test_offers_of_a_lick_in_a_rhythm_stand_in_the_lick() -> None:
    text = lesson_text(
        "rhythm trot h x x\nlick a on IV in trot\n 3d 2d\nplay\n every I rest\n every IV a\n"
        " every V rest"
    )
    (problem,) = fit_problems(text)
    assert problem.span.text == "3d"
    assert not fit_problems(pasted(text, problem, problem.fields["offers"][0]))
