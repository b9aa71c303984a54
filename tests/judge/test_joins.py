"""Joins: which pairs of notes, how often, in which order."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.judge.joins import Join, find_joins, hardest
from formsheet.judge.ladder import tune_ladder
from formsheet.music.harp import HARP_KEYS
from tests.helpers import lesson_text, tune_of

LICKS = """lick a on I
  q 2d 3d 4d {last}
lick b on IV
  q 4b 5b 6b 4b
lick c on V
  q 1d 1d 4d {end}
"""
PLAY = "play{times}\n  every I a\n  every IV b\n  every V c{more}"


def tune_text(
    last: str = "2d", end: str = "1d", times: str = "", more: str = "", **facts: str
) -> str:
    return lesson_text(LICKS.format(last=last, end=end) + PLAY.format(times=times, more=more),
                       **facts)  # fmt: skip


def joins(**changes: str) -> list[Join]:
    return find_joins(tune_of(tune_text(**changes)))


def pairs(found: list[Join]) -> set[tuple[str, str, str, str]]:
    return {
        (j.first_lick.name, j.second_lick.name, str(j.last.tab), str(j.first.tab)) for j in found
    }


def test_every_join_of_a_chorus_once() -> None:
    assert pairs(joins()) == {
        ("a", "a", "2d", "2d"),
        ("a", "b", "2d", "4b"),
        ("b", "b", "4b", "4b"),
        ("b", "a", "4b", "2d"),
        ("a", "c", "2d", "1d"),
        ("c", "b", "1d", "4b"),
    }


def test_the_join_from_chorus_to_chorus_is_one_too() -> None:
    assert pairs(joins(times=" x2")) - pairs(joins()) == {("c", "a", "1d", "2d")}


def test_the_last_time_has_joins_of_its_own() -> None:
    more = "\n  last time bar 12 a"
    assert ("c", "a", "1d", "2d") in pairs(joins(times=" x2"))
    text = tune_text(times=" x2", more=more).replace("lick a on I\n", "lick a on I, V\n")
    assert pairs(find_joins(tune_of(text))) >= {("a", "a", "2d", "2d")}


def test_bars_that_a_join_leads_into() -> None:
    (loop,) = [j for j in joins() if j.loops and j.first_lick.name == "a"]
    assert loop.bars == (2, 3, 4, 8)


def test_time_runs_from_onset_to_onset() -> None:
    assert {j.beats for j in joins()} == {1.0}


def test_swing_counts() -> None:
    text = tune_text(feel="swing").replace("q 2d 3d 4d 2d", "q 2d 3d 4d e - 2d")
    beats = {round(j.beats, 4) for j in find_joins(tune_of(text)) if j.first_lick.name == "a"}
    assert beats == {round(1 / 3, 4)}


def test_the_hardest_comes_first() -> None:
    tempos = [join.easy_tempo for join in joins()]
    assert tempos == sorted(tempos)


def test_a_loop_of_one_note_is_the_easiest() -> None:
    assert joins()[-1].move.seconds == min(join.move.seconds for join in joins())
    assert joins()[-1].loops


@pytest.mark.limit("judge.joins.ALWAYS")
def test_those_that_are_not_easy_are_practised_and_three_at_the_least() -> None:
    found = joins()
    assert not found[0].loops
    assert hardest(found, target=1e-6, most=8) == [join for join in found if not join.loops][:3]
    assert hardest(found, target=1e6, most=8) == found[:8]
    assert hardest(found, target=1e6, most=2) == found[:2]


def test_a_pickup_belongs_to_the_lick_it_leads_into() -> None:
    text = tune_text(last="-").replace("lick b on IV\n", "lick b on IV\n  pickup e 3d 4d\n")
    text = text.replace("q 4b 5b 6b 4b", "q 4b 5b 6b -").replace("1d 1d 4d 1d", "1d 1d 4d -")
    assert ("a", "b", "4d", "3d") in pairs(find_joins(tune_of(text)))


def test_ladder_starts_where_the_lesson_says() -> None:
    tune = tune_of(tune_text(tempo="120", learn="50"))
    assert tune_ladder(find_joins(tune), tune.lesson.facts)[0] == 50


@settings(max_examples=25, deadline=None, derandomize=True, database=None)
@given(st.sampled_from(HARP_KEYS), st.sampled_from(["2d", "4d'", "9b", "14d", "123d"]))
def test_another_harp_changes_no_join(key: str, last: str) -> None:
    def costs(harp: str) -> list[tuple[float, tuple[int, ...]]]:
        return [(j.move.seconds, j.bars) for j in joins(last=last, harp=harp)]

    assert costs(key) == costs("C")


@pytest.mark.parametrize(("slow", "fast"), [("60", "120"), ("100", "200")])
def test_a_join_is_easy_at_a_tempo_of_its_own(slow: str, fast: str) -> None:
    easy = [[j.easy_tempo for j in joins(tempo=tempo)] for tempo in (slow, fast)]
    assert easy[0] == pytest.approx(easy[1])
