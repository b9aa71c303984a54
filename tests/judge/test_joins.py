"""Moves, inside licks and across joins: which pairs of notes, how often, in which order."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.judge.joins import PlayedMove, find_joins, find_moves, hardest, pairs_of
from formsheet.judge.ladder import tune_ladder
from formsheet.music.harp import HARP_KEYS
from tests.helpers import lesson_text, over, tune_of

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


def joins(**changes: str) -> list[PlayedMove]:
    return find_joins(tune_of(tune_text(**changes)))


def pairs(found: list[PlayedMove]) -> set[tuple[str, str, str, str]]:
    return {
        (j.first_lick.name, j.second_lick.name, str(j.last.tab), str(j.first.tab)) for j in found
    }


def inside(text: str) -> list[tuple[str, str]]:
    """The moves inside licks, hardest first."""
    return [(str(m.last.tab), str(m.first.tab)) for m in find_moves(tune_of(text)) if not m.joins]


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
    assert {j.beats for j in find_moves(tune_of(tune_text()))} == {1.0}


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


# ---- Inside licks ----------------------------------------------------------------------------


def test_moves_inside_licks_and_joins_are_in_one_list_told_apart() -> None:
    tune = tune_of(tune_text())
    found = find_moves(tune)
    assert {(each.joins, each.loops) for each in found} == {
        (False, False), (True, False), (True, True),
    }  # fmt: skip
    assert [each for each in found if each.joins] == find_joins(tune)
    assert all(each.first_lick == each.second_lick for each in found if not each.joins)
    assert [each.easy_tempo for each in found] == sorted(each.easy_tempo for each in found)


def test_a_lick_twice_in_a_row_is_joined_to_itself_and_its_bars_are_not() -> None:
    body = "lick a on I | I\n  q 2d 3d 4d 5d | q 6d 6b 5b 4b\nplay\n  bars 1-4 a"
    found = find_moves(tune_of(lesson_text(body, form='"Own"\n  | I | I | I | I |')))
    assert pairs([each for each in found if each.joins]) == {("a", "a", "4b", "2d")}
    assert ("a", "a", "5d", "6d") in pairs([each for each in found if not each.joins])


def test_a_note_struck_again_inside_a_lick_is_no_move() -> None:
    assert inside(over("I", "q 2d 2d 3d' 3d'")) == [("2d", "3d'")]
    assert inside(over("I", "w 2d")) == []


def test_a_move_inside_a_lick_is_there_once_where_it_is_hardest() -> None:
    text = over("I | I | I", "h 2d 3d' | q 2d 3d' h - | h 2d 3d'")
    (up,) = [m for m in find_moves(tune_of(text)) if str(m.first.tab) == "3d'"]
    assert (up.beats, up.last.bar, up.bars) == (1.0, 1, (1, 2, 3))
    assert up.passage.first == up.passage.last == 1


def test_a_join_is_there_once_for_each_time() -> None:
    body = (
        "lick a on I\n  h 2d 3d\nlick c on I\n  h 4d -\n"
        "play\n  bars 1-4 a, c, a, c\n  bars 5-7 a, rest, c\n  bar 8 rest"
    )
    tune = tune_of(lesson_text(body, form='"Own"\n  | I | I | I | I | I | I | I | I |'))
    into = [(j.beats, j.bars) for j in find_joins(tune) if j.second_lick.name == "c"]
    assert sorted(into) == [(2.0, (2, 4)), (6.0, (7,))]


def test_every_move_is_there_as_often_as_it_is_played() -> None:
    tune = tune_of(tune_text())
    played = pairs_of(tune)
    assert len(played) == len(tune.notes) - 1 - 2  # 1 draw is struck again in bars 9 and 12
    assert max(pair.load for pair in played) == pytest.approx(60 / find_moves(tune)[0].easy_tempo)


# ---- A row of hard moves ---------------------------------------------------------------------

#: Seconds that 2 draw to 6 draw takes beyond a note struck again: log2(5) bits of 0.09 s.
LEAP = 0.09 * math.log2(5)


def easy(music: str) -> dict[int, float]:
    """Seconds that each move of a bar of eighths needs at ease, the moves before it included.

    By the number of the note that it leads to, from 0.
    """
    tune = tune_of(over("I", music))
    numbers = {note.played.number: at for at, note in enumerate(tune.notes)}
    return {numbers[pair.first.played.number]: pair.load * pair.beats for pair in pairs_of(tune)}


# Our own choice: an eighth of the effort of each of the four moves before.
@pytest.mark.limit("judge.joins.ROW", "judge.joins.ROW_SHARE")
@pytest.mark.parametrize("before", range(7))
def test_each_move_of_a_row_adds_to_those_after_it(before: int) -> None:
    needed = easy("e 2d 6d 2d 6d 2d 6d 2d 6d")[before + 1]
    assert needed == pytest.approx(0.14 + LEAP * (1 + 0.125 * min(before, 4)))


def test_an_easier_move_ends_a_row_as_far_as_it_is_easier() -> None:
    needed = easy("e 2d 6d 2d 6d 5d 2d 6d 2d")
    step, leap = 0.09, 0.09 * 2
    assert needed[4] == pytest.approx(0.14 + step * (1 + 0.125 * 3))
    assert needed[5] == pytest.approx(0.14 + leap + 0.125 * step * 4)
    assert needed[6] == pytest.approx(0.14 + LEAP + 0.125 * (leap + 3 * step))


def test_a_note_struck_again_ends_a_row() -> None:
    assert easy("e 2d 6d 2d 2d 6d 6d q 6d")[4] == pytest.approx(0.14 + LEAP)


def test_a_rest_ends_a_row_as_far_as_it_is_long() -> None:
    """A move over a rest has more time, and so adds less, as do those before it."""
    needed = easy("e 2d 6d 2d - - - 6d 2d")
    assert needed[3] == pytest.approx(0.14 + LEAP * (1 + 2 * 0.125))
    assert needed[4] == pytest.approx(0.14 + LEAP * (1 + 3 * 0.125 / 4))


# ---- Which to practise -----------------------------------------------------------------------


@pytest.mark.limit("judge.joins.ALWAYS")
def test_those_that_are_not_easy_are_practised_and_three_joins_at_the_least() -> None:
    found = find_joins(tune_of(tune_text()))
    wide = [each for each in found if not each.loops]
    assert hardest(found, target=1e-6, most=8) == wide[:3]
    assert hardest(found, target=1e6, most=8) == found[:8]
    assert hardest(found, target=1e6, most=2) == found[:2]
    between = (found[1].easy_tempo + found[2].easy_tempo) / 2
    assert hardest(found, target=between, most=8)[:2] == found[:2]
    assert len(hardest(found, target=between, most=8)) == 3


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
