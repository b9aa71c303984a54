"""The event list: beats, swing and holds."""

from __future__ import annotations

import pytest

from formsheet.sound.events import Event, guide_events
from tests.helpers import lesson_text, over, own_form, tune_of


def events(chords: str, music: str, **facts: str | None) -> tuple[Event, ...]:
    return guide_events(tune_of(over(chords, music, **facts)))


def starts(found: tuple[Event, ...]) -> list[object]:
    return [pytest.approx(event.start) for event in found]


def test_starts_are_beats_at_any_tempo() -> None:
    slow, fast = (events("I", "q 2d 3d h 2d", tempo=tempo) for tempo in ("60", "180"))
    assert [event.start for event in slow] == starts(fast) == [0, 1, 2]


def test_swung_eighths_stand_at_two_thirds() -> None:
    assert starts(events("I", "e 2d 3d q 2d h -", feel="swing")) == [0, 2 / 3, 1]


def test_a_hold_is_one_event() -> None:
    found = events("I | I", "h 2d 3d | h = 2d")
    assert [event.length for event in found] == [2, 4, 2]


def test_technique_and_syllable_are_kept() -> None:
    (event,) = events("I", 'w 2d{wah}"ka"')
    assert (event.technique, event.syllable, event.bar) == ("wah", "ka", 0)


def test_a_shake_knows_the_next_hole_up() -> None:
    (shaken,) = events("I", "w 4d{shake}")
    assert (shaken.midi, shaken.neighbour) == ((74,), (77,))  # 4 draw D5, 5 draw F5 on a C harp


def test_two_neighbouring_holes_are_shaken_with_each_other() -> None:
    """Players write a shake of 4 and 5 draw as `4d` or as `45d`: common practice, no source."""
    (shaken,) = events("I", "w 45d{shake}")
    assert (shaken.midi, shaken.neighbour) == ((74,), (77,))


def test_a_shaken_chord_moves_whole() -> None:
    (shaken,) = events("I", "w 123d{shake}")
    assert shaken.neighbour == (67, 71, 74)


def test_nothing_is_above_hole_ten() -> None:
    (shaken,) = events("I", "w 10d{shake}")
    assert shaken.neighbour == ()


def test_a_pickup_into_the_first_bar_starts_before_it() -> None:
    text = lesson_text(
        "lick run on I\n pickup e 1d 2b\n w 2d\nplay\n  every I run", form=own_form("I")
    )
    assert [event.start for event in guide_events(tune_of(text))] == [-1, -0.5, 0]
