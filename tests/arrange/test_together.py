"""Licks with their joins: the tab of several lines that lead into each other."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import prod

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from formsheet.arrange.choices import Choice, joined, sound_choices
from formsheet.arrange.cost import Cost
from formsheet.arrange.retab import Asked, retabbed
from formsheet.arrange.search import lay
from formsheet.arrange.sounds import Line, Sound
from formsheet.arrange.together import lay_together
from formsheet.judge.joins import JoinedMarks, joined_marks
from formsheet.music.harp import Harp
from formsheet.notes.names import midi_of
from tests.arrange.test_search import harps
from tests.lessons import NAMES, demo

HALF = Fraction(1, 2)


def line(name: str, notes: str) -> Line:
    """Notes a half beat apart; the marks are "a0", "a1" and so on."""
    return tuple(
        Sound((midi_of(note),), 1, at * HALF, HALF if at else Fraction(0), mark=f"{name}{at}")
        for at, note in enumerate(notes.split())
    )


def tabs(lines: list[Line], joins: list[JoinedMarks]) -> list[str]:
    found = lay_together(lines, Harp("C"), False, joins)
    return [" ".join(str(choice.tab) for choice in laid.choices) for laid in found.laid]


# G4 is 2 draw or 3 blow on a C harp. As a player would: made up and put by hand.


def test_a_lick_ends_where_the_next_begins() -> None:
    alone = [line("a", "D4 G4"), line("b", "C5 E5 C5")]
    assert tabs(alone, []) == ["1d 2d", "4b 5b 4b"]
    assert tabs(alone, [JoinedMarks("a1", "b0", HALF)])[1] == "4b 5b 4b"
    leads = [line("a", "G4"), line("b", "C5 E5 C5")]
    assert tabs(leads, [])[0] == "2d"
    assert tabs(leads, [JoinedMarks("a0", "b0", Fraction(1, 4))])[0] == "3b"


def test_a_lick_starts_where_the_one_before_ends() -> None:
    blown = [line("a", "E5 C5"), line("b", "G4")]
    assert tabs(blown, [JoinedMarks("a1", "b0", HALF)])[1] == "3b"
    drawn = [line("a", "D5 B4"), line("b", "G4")]
    assert tabs(drawn, [JoinedMarks("a1", "b0", HALF)])[1] == "2d"


def test_a_lick_that_loops_ends_where_it_starts() -> None:
    loop = [JoinedMarks("a2", "a0", HALF)]
    once, round_and_round = (tabs([line("a", "G4 D5 C5")], joins)[0] for joins in ([], loop))
    assert once == "2d 4d 4b"
    assert round_and_round == "3b 4d 4b"


def test_joins_of_licks_that_are_not_asked_for_count_for_nothing() -> None:
    assert tabs([line("a", "G4")], [JoinedMarks("a0", "z0", HALF)]) == ["2d"]


# ---- Against brute force --------------------------------------------------------------------

_MOST_TABS = 400

short = st.lists(st.integers(58, 76), min_size=1, max_size=3)
gaps = st.sampled_from([Fraction(1, 4), HALF, Fraction(1), Fraction(2)])


def _cost(
    lines: list[Line], chosen: list[tuple[Choice, ...]], joins: list[tuple[int, int, Fraction]]
) -> Cost:
    total = Cost()
    for each, choices in zip(lines, chosen, strict=True):
        total = total.plus(choices[0].cost)
        for sound, before, here in zip(each[1:], choices, choices[1:], strict=False):
            total = total.plus(joined(before, here, sound.gap)).plus(here.cost)
    for last, first, gap in joins:
        total = total.plus(joined(chosen[last][-1], chosen[first][0], gap))
    return total


@settings(max_examples=60, derandomize=True, deadline=None, database=None)
@given(
    harps(),
    st.lists(short, min_size=1, max_size=3),
    st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2), gaps), min_size=1, max_size=4),
)
def test_no_line_alone_can_be_better(
    harp: Harp, pitches: list[list[int]], meets: list[tuple[int, int, Fraction]]
) -> None:
    """No other tab of one line is better while the others stay, and joins make none worse."""
    lines = [
        tuple(
            Sound((midi,), 1, at * HALF, HALF if at else Fraction(0), mark=(number, at))
            for at, midi in enumerate(each)
        )
        for number, each in enumerate(pitches)
    ]
    joins = sorted({each for each in meets if max(each[:2]) < len(lines)})
    marks = [
        JoinedMarks((last, len(lines[last]) - 1), (first, 0), gap) for last, first, gap in joins
    ]
    options = [[sound_choices(sound, harp, False) for sound in each] for each in lines]
    assume(all(prod(map(len, each)) <= _MOST_TABS for each in options))
    found = lay_together(lines, harp, False, marks)
    chosen = [laid.choices for laid in found.laid]
    assert found.cost.strain == pytest.approx(_cost(lines, chosen, joins).strain)
    for number, each in enumerate(options):
        for other in product(*each):
            trial = [*chosen]
            trial[number] = other
            cost = _cost(lines, trial, joins)
            assert found.cost[:3] <= cost[:3]
            if found.cost[:3] == cost[:3]:
                assert found.cost.strain <= cost.strain + 1e-6
    alone = [lay(each, harp).choices for each in lines]
    assert found.cost.strain <= _cost(lines, alone, joins).strain + 1e-6


# ---- From a lesson --------------------------------------------------------------------------


def test_retab_sees_which_licks_follow_each_other() -> None:
    """The bell rings on 2 draw or 3 blow; the licks that lead into it end blown in 1st position."""
    tune = demo("last-tram-but-one").tune
    assert tune
    lesson, asked = tune.lesson, Asked(position=1)
    first = {
        bool(joins): str(
            retabbed(lesson.facts, lesson.key, lesson.licks, asked, joins)
            .laid["bell"]
            .choices[0]
            .tab
        )
        for joins in ([], joined_marks(tune))
    }
    assert first == {False: "2d", True: "3b"}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("position", [1, 3, 4, 12])
def test_joins_never_cost_more_than_without_looking_at_them(name: str, position: int) -> None:
    tune = demo(name).tune
    assert tune
    lesson = tune.lesson
    asked, joins = Asked(position=position, octaves=0), joined_marks(tune)
    with_joins = retabbed(lesson.facts, lesson.key, lesson.licks, asked, joins)
    without = retabbed(lesson.facts, lesson.key, lesson.licks, asked)
    assert with_joins.arranged.cost[:3] == without.arranged.cost[:3]
    inside = sum(laid.cost.strain for laid in with_joins.laid.values())
    assert inside >= without.arranged.cost.strain - 1e-9
