"""Excerpts and takes: a lick alone, a join as a loop, the whole tune; counted in, so many times."""

from __future__ import annotations

from dataclasses import replace

import pytest

from formsheet.judge.joins import ALWAYS, find_joins
from formsheet.music.rhythm import METERS
from formsheet.sound.events import Event
from formsheet.sound.excerpts import (
    MOST_LOOPS,
    Excerpt,
    lick_excerpts,
    move_excerpts,
    tune_excerpt,
)
from formsheet.sound.takes import BAND, GUIDE, Take, take
from formsheet.tune.timeline import Tune
from tests.helpers import lesson_text, own_form, tune_of
from tests.lessons import NAMES, demo

TWO_LICKS = """
lick low on I
 q 2d 3d 4d -
lick high on IV
 pickup e 3d 4d
 q 4b 5b h 6b
play x2
 bar 1 low
 bar 2 high
"""


def two_licks(tempo: str = "60") -> Tune:
    return tune_of(lesson_text(TWO_LICKS, form=own_form("I | IV"), tempo=tempo))


def lick(tune: Tune, name: str) -> Excerpt:
    return next(excerpt for excerpt in lick_excerpts(tune) if excerpt.name == name)


def starts(events: tuple[Event, ...]) -> list[float]:
    return [event.start for event in events]


def test_a_lick_has_its_own_notes_from_its_own_bar_line() -> None:
    low = lick(two_licks(), "low")
    assert (starts(low.guide), low.beats, low.first) == ([0, 1, 2], 4, 0)


def test_a_lick_brings_its_pickup() -> None:
    high = lick(two_licks(), "high")
    assert starts(high.guide) == [-1, -0.5, 0, 1, 2]
    assert (high.pickup, high.first) == (1, 1)


def test_a_pickup_without_room_is_given_a_bar_before_the_next_time() -> None:
    assert lick(two_licks(), "high").beats == 8  # its last note lasts to the bar line


def test_a_pickup_with_room_goes_round_in_whole_bars() -> None:
    roomy = TWO_LICKS.replace("h 6b", "q 6b -")
    tune = tune_of(lesson_text(roomy, form=own_form("I | IV")))
    assert lick(tune, "high").beats == 4


def test_a_lick_brings_the_band_of_its_bars() -> None:
    high = lick(two_licks(), "high")
    assert {event.bar for event in high.band} == {1}
    assert min(starts(high.band)) == 0


def test_a_hard_join_is_a_loop_of_two_bars() -> None:
    body = TWO_LICKS.replace("q 2d 3d 4d -", "h 2d q 1d 1b").replace("pickup e 3d 4d", "")
    body = body.replace("q 4b 5b", "q 9d 5b")
    tune = tune_of(lesson_text(body, form=own_form("I | IV"), tempo="200"))
    ((join, loop), *_) = move_excerpts(tune, find_joins(tune))
    assert loop.name == f"{join.first_lick.name}-to-{join.second_lick.name}" == "low-to-high"
    assert loop.beats == 8
    assert starts(loop.guide) == pytest.approx([0, 2, 3, 4, 5, 6])


def test_a_join_into_a_pickup_goes_on_to_the_bar_that_it_leads_to() -> None:
    body = TWO_LICKS.replace("q 2d 3d 4d -", "h 2d e 1d 1b q -").replace("e 3d 4d", "e 9d 9b")
    tune = tune_of(lesson_text(body, form=own_form("I | IV"), tempo="208"))
    ((join, loop), *_) = move_excerpts(tune, find_joins(tune))
    assert (join.first.played.pickup, loop.beats) == (True, 8)
    assert starts(loop.guide) == pytest.approx([0, 2, 2.5, 3, 3.5, 4, 5, 6])


def test_the_hardest_joins_are_looped_even_where_they_are_easy() -> None:
    tune = two_licks(tempo="40")
    joins = find_joins(tune)
    assert all(join.easy_tempo >= 40 for join in joins)
    assert [join for join, _ in move_excerpts(tune, joins)] == joins[:ALWAYS]


def test_an_easy_join_of_a_lick_to_itself_is_not_looped() -> None:
    tune = tune_of(lesson_text("lick run on I\n w 2d\nplay x2\n  bars 1-2 run x2", tempo="40",
                               form=own_form("I | I")))  # fmt: skip
    joins = find_joins(tune)
    assert joins
    assert list(move_excerpts(tune, joins)) == []


@pytest.mark.parametrize("name", NAMES)
def test_excerpts_of_the_demo_lessons_hold_together(name: str) -> None:
    tune = demo(name).tune
    assert tune
    licks = list(lick_excerpts(tune))
    joins = [loop for _, loop in move_excerpts(tune, find_joins(tune))]
    whole = tune_excerpt(tune)
    assert [each.name for each in licks] == list(
        dict.fromkeys(bar.lick.name for bar in tune.bars if bar.lick)
    )
    assert len(joins) <= MOST_LOOPS
    beats = tune.lesson.facts.meter.beats
    for each in (*licks, *joins, whole):
        assert each.guide
        assert each.beats % beats == 0
        end = max(event.start + event.length for event in each.guide)
        assert end <= each.beats - (0 if each in joins else each.pickup) + 1e-9 or each is whole
    assert len(whole.guide) == len(tune.notes)
    assert whole.beats == len([bar for bar in tune.bars if bar.number]) * beats


def clicked(taken: Take) -> int:
    """Beats that are counted before the first bar line."""
    return sum(event.voice == "click" for event in taken.events)


def test_a_take_is_counted_in_and_played_so_many_times() -> None:
    taken = take(lick(two_licks(), "low"), METERS["4/4"], times=2, count_in=1)
    assert [e.start for e in taken.events if e.voice == "click"] == [0, 1, 2, 3]
    assert [e.start for e in taken.events if e.voice == "guide"] == [4, 5, 6, 8, 9, 10]
    assert taken.beats == 12


def test_a_pickup_is_played_in_the_last_bar_of_the_count() -> None:
    taken = take(lick(two_licks(), "high"), METERS["4/4"], count_in=2)
    assert next(e.start for e in taken.events if e.voice == "guide") == 7
    assert clicked(taken) == 8


def test_nothing_is_heard_that_was_not_asked_for() -> None:
    whole = tune_excerpt(two_licks())
    for voices in (GUIDE, BAND, (*GUIDE, *BAND)):
        taken = take(whole, METERS["4/4"], voices=voices, count_in=0)
        assert {event.voice for event in taken.events} == set(voices)


def test_no_event_starts_before_the_take() -> None:
    high = lick(two_licks(), "high")
    for count_in in range(3):
        taken = take(high, METERS["4/4"], count_in=count_in, times=3)
        assert min(starts(taken.events)) >= 0


def test_a_pickup_longer_than_half_a_bar_gets_a_bar_more() -> None:
    low = lick(two_licks(), "low")
    early = replace(low, guide=(replace(low.guide[0], start=-2.5), *low.guide))
    assert clicked(take(early, METERS["4/4"], count_in=1)) == 8


ONCE = """
lick low on I
 pickup once e 3d 4d
 q 2d 3d h 4d
lick high on IV
 w 4b
play x2
 bar 1 low
 bar 2 high
"""


def once() -> Tune:
    return tune_of(lesson_text(ONCE, form=own_form("I | IV"), count_in="0"))


def test_a_pickup_that_is_played_once_needs_no_room_to_return() -> None:
    low = lick(once(), "low")
    assert starts(low.guide) == [-1, -0.5, 0, 1, 2]
    assert (low.pickup, low.beats) == (1, 4)


def test_a_pickup_that_is_played_once_is_heard_the_first_time_round() -> None:
    taken = take(lick(once(), "low"), METERS["4/4"], times=3)
    assert [e.start for e in taken.events if e.voice == "guide"] == [
        3, 3.5, 4, 5, 6, 8, 9, 10, 12, 13, 14,
    ]  # fmt: skip


def test_a_pickup_without_a_count_in_is_given_a_bar_of_count() -> None:
    taken = take(tune_excerpt(once()), METERS["4/4"], count_in=0)
    assert [e.start for e in taken.events if e.voice == "click"] == [0, 1, 2, 3]
    assert [e.start for e in taken.events if e.voice == "guide"][:3] == [3, 3.5, 4]
