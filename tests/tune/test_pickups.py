"""Pick-ups: into the rest of the bar before, before the tune, cut rests, no room."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.helpers import lesson_text, notes_of, only_problem, own_form, tune_of

SIGNS = {"rest": "-", "hold": "="}


def two(first: str, second: str, meter: str = "4/4") -> str:
    """Two bars: a lick, then another with its pick-up."""
    return lesson_text(
        f"lick first on I\n {first}\nlick second on IV\n {second}\nplay\n every I first\n"
        " every IV second",
        form=own_form("I | IV"),
        meter=meter,
    )


def bar(text: str, index: int = 0) -> str:
    """The marks of a bar with their places and values: "2d@0h -@2q"."""
    return " ".join(
        f"{played.mark.tab or SIGNS[played.mark.kind.value]}@{played.onset}{played.mark.value}"
        for played in tune_of(text).bars[index].marks
    )


@pytest.mark.limit("tune.pickups._PLAIN", "tune.pickups._TRIPLETS")
@pytest.mark.parametrize(
    ("first", "pickup", "laid"),
    [
        # A rest of just that length.
        ("q 2d 3d 2d -", "q 1d", "2d@0q 3d@1q 2d@2q 1d@3q"),
        ("q 2d 3d 2d e 1d -", "e 1b", "2d@0q 3d@1q 2d@2q 1d@3e 1b@7/2e"),
        # Longer rests are cut; what is left is written in whole beats and parts of a beat.
        ("q 2d 3d 2d -", "e 1d", "2d@0q 3d@1q 2d@2q -@3e 1d@7/2e"),
        ("q 2d 3d 2d -", "s 1d", "2d@0q 3d@1q 2d@2q -@3e. 1d@15/4s"),
        ("h 2d -", "e 1d 1b", "2d@0h -@2q 1d@3e 1b@7/2e"),
        ("h 2d -", "q. 1d", "2d@0h -@2e 1d@5/2q."),
        ("q 2d h. -", "e 1d", "2d@0q -@1q -@2q -@3e 1d@7/2e"),
        ("w -", "e 1d", "-@0h -@2q -@3e 1d@7/2e"),
        ("w -", "h. 1d", "-@0q 1d@1h."),
        # Triplets leave triplets.
        ("h. 2d q -", "e3 1d", "2d@0h. -@3q3 1d@11/3e3"),
        ("h. 2d q -", "e3 1d 1b", "2d@0h. -@3e3 1d@10/3e3 1b@11/3e3"),
        ("h. 2d q -", "e3 1d 1b 1d", "2d@0h. 1d@3e3 1b@10/3e3 1d@11/3e3"),
        # Rests that are not in the way stay as they are written.
        ("e 2d - - - - - - -", "e 1d 1b", "2d@0e -@1/2e -@1e -@3/2e -@2e -@5/2e 1d@3e 1b@7/2e"),
        ("q - - 2d -", "q 1d", "-@0q -@1q 2d@2q 1d@3q"),
        # What is left of a beat is a double-dotted sixteenth.
        ("w -", "e. 1d s. 1d s.. 1d", "-@0h -@2s.. 1d@39/16e. 1d@51/16s. 1d@57/16s.."),
        # A pick-up may begin with a rest, and hold.
        ("h 2d -", "q - e 1d =", "2d@0h -@2q 1d@3e =@7/2e"),
        ("h 2d -", "e - 1d q 1b", "2d@0h -@2e 1d@5/2e 1b@3q"),
    ],
)
def test_bar_before(first: str, pickup: str, laid: str) -> None:
    assert bar(two(first, f"pickup {pickup}\n w 4b")) == laid


@pytest.mark.parametrize(
    ("meter", "first", "pickup", "laid"),
    [
        ("12/8", "w. -", "e 1d", "-@0h. -@3q. -@9/2q 1d@11/2e"),
        ("12/8", "h. 2d -", "e 1d 1b 1d", "2d@0h. -@3q. 1d@9/2e 1b@5e 1d@11/2e"),
        ("6/8", "q. 2d -", "e 1d", "2d@0q. -@3/2q 1d@5/2e"),
        ("3/4", "h. -", "e 1d", "-@0h -@2e 1d@5/2e"),
        ("3/4", "q 2d - -", "q 1d 1b", "2d@0q 1d@1q 1b@2q"),
    ],
)
def test_bar_before_in_other_meters(meter: str, first: str, pickup: str, laid: str) -> None:
    second = "w. 4b" if meter == "12/8" else "h. 4b"
    assert bar(two(first, f"pickup {pickup}\n {second}", meter)) == laid


def test_onsets_of_a_pickup() -> None:
    assert notes_of(two("h 2d -", "pickup e3 1d 1b 1d\n w 4b")) == [
        ("2d", F(0), F(2)),
        ("1d", F(3), F(1, 3)),
        ("1b", F(10, 3), F(1, 3)),
        ("1d", F(11, 3), F(1, 3)),
        ("4b", F(4), F(4)),
    ]


def test_notes_of_a_pickup_belong_to_the_bar_before() -> None:
    notes = tune_of(two("h 2d -", "pickup e 1d\n w 4b")).notes
    assert [(note.bar, note.played.pickup) for note in notes] == [
        (0, False), (0, True), (1, False),
    ]  # fmt: skip


def test_last_note_of_a_pickup_held_over_the_bar_line() -> None:
    assert notes_of(two("h 2d -", "pickup e 1b 1d\n q = 4b 5b -")) == [
        ("2d", F(0), F(2)),
        ("1b", F(3), F(1, 2)),
        ("1d", F(7, 2), F(3, 2)),
        ("4b", F(5), F(1)),
        ("5b", F(6), F(1)),
    ]


def test_bar_before_the_tune() -> None:
    text = two("pickup e 1d q 2d\n w 2d", "w 4b")
    tune = tune_of(text)
    before = tune.bars[0]
    assert (before.number, before.chorus, before.start) == (0, 0, F(-4))
    assert before.lick is None
    assert bar(text) == "-@0h -@2e 1d@5/2e 2d@3q"
    assert [str(chord) for _, chord in before.chords] == ["I"]
    assert [(b.number, b.start) for b in tune.bars[1:]] == [(1, F(0)), (2, F(4))]
    assert tune.choruses[0].bars == (1, 2)


def test_notes_before_the_tune_stand_before_its_first_bar_line() -> None:
    notes = tune_of(two("pickup q 1d\n w 2d", "w 4b")).notes
    assert [(note.start_s, note.end_s) for note in notes] == [(-1, 0), (0, 4), (4, 8)]


def test_tune_without_a_pickup_has_no_bar_before() -> None:
    assert tune_of(two("h 2d -", "pickup e 1d\n w 4b")).bars[0].number == 1


def test_pickup_of_a_lick_into_its_own_end() -> None:
    text = lesson_text(
        "lick run on I\n pickup q 1d\n h. 2d q -\nplay\n every I run", form=own_form("I | I")
    )
    assert notes_of(text) == [
        ("1d", F(-1), F(1)), ("2d", F(0), F(3)), ("1d", F(3), F(1)), ("2d", F(4), F(3)),
    ]  # fmt: skip


def test_pickup_of_a_long_lick_is_played_once_a_round() -> None:
    text = lesson_text(
        "lick run on I\n pickup q 1d\n h. 2d q - | h. 3d q -\nplay\n every I run",
        form=own_form("I | I | I | I"),
    )
    assert [note[:2] for note in notes_of(text)] == [
        ("1d", F(-1)), ("2d", F(0)), ("3d", F(4)), ("1d", F(7)), ("2d", F(8)), ("3d", F(12)),
    ]  # fmt: skip


def test_pickup_into_the_chorus_before() -> None:
    text = lesson_text(
        "lick run on I\n pickup q 1d\n w 2d\nplay\n bar 1 rest\n bar 2 rest\nplay\n bar 1 run\n"
        " bar 2 rest",
        form=own_form("I | I"),
    )
    assert notes_of(text) == [("1d", F(7), F(1)), ("2d", F(8), F(4))]


def test_only_the_bar_before_the_lick_is_cut() -> None:
    text = two("h 2d -", "pickup e 1d\n w 4b")
    assert bar(text, 1) == "4b@0w"


@pytest.mark.parametrize(
    ("first", "pickup", "sounding"),
    [
        ("w 2d", "e 1d", "2d"),
        ("h 2d q 3d e 4d 2d", "e 1d", "2d"),
        ("h. 2d e 3d -", "q 1d", "3d"),
        ("h. 2d q =", "e 1d", "="),
        ("h. 2d q -", "q 1d e 1d", "2d"),
    ],
)
def test_no_room(first: str, pickup: str, sounding: str) -> None:
    problem = only_problem(two(first, f"pickup {pickup}\n w 4b"))
    assert (problem.code, problem.span.text) == ("pickup-no-room", "first")
    assert [r.label for r in problem.related] == ["this pick-up", "still sounding here"]
    assert problem.related[1].span.text == sounding
    assert (problem.fields["bar"], problem.fields["before"]) == (1, "first")


def test_no_room_is_told_once_however_often_it_comes() -> None:
    text = two("w 2d", "pickup e 1d\n w 4b").replace("play", "play x4")
    assert only_problem(text).code == "pickup-no-room"


# Our own choice: four rests within a beat at most. What this pick-up leaves of the third beat of a
# bar of 12/8 takes four; no part of a beat takes more.
@pytest.mark.limit("tune.pickups._MOST_PARTS")
def test_what_is_left_of_a_beat_takes_four_rests_at_most() -> None:
    text = two("w. -", "pickup s.. 1d q3 1d 1d\n w. 4b", meter="12/8")
    assert bar(text).startswith("-@0h. -@3s3 -@19/6s -@41/12s. -@91/24s.. 1d")


# ---- Played once, where the tune begins ----------------------------------------------------


LED_IN_ONCE = """
lick run on I
 pickup once e 1d 2b
 w 2d
lick turn on IV
 w 4b
play x2
 every I run
 every IV turn
"""


def led_in_once(**facts: str) -> str:
    return lesson_text(LED_IN_ONCE, form=own_form("I | IV"), **facts)


def test_a_pickup_played_once_needs_no_rest_and_sounds_before_the_tune_alone() -> None:
    tune = tune_of(led_in_once())
    assert [(bar.number, bar.start) for bar in tune.bars[:2]] == [(0, F(-4)), (1, F(0))]
    lead = [note for note in tune.notes if note.played.pickup]
    assert [(str(note.tab), note.bar, note.start, note.played.once) for note in lead] == [
        ("1d", 0, F(-1), True), ("2b", 0, F(-1, 2), True),
    ]  # fmt: skip
    assert [note.tab.breath.value for note in tune.notes[2:]] == ["d", "b", "d", "b"]
    assert (tune.pickup_once, tune.pickup) == (True, tune.bars[0])


def test_a_pickup_played_each_time_is_not_once() -> None:
    tune = tune_of(two("pickup q 1d\n w 2d", "w 4b"))
    assert tune.pickup is not None
    assert not tune.pickup_once


def test_a_pickup_played_once_is_not_played_where_another_lick_begins() -> None:
    tune = tune_of(two("w 2d", "pickup once e 1d\n w 4b"))
    assert [bar.number for bar in tune.bars] == [1, 2]
    assert not any(note.played.pickup for note in tune.notes)
    assert (tune.pickup, tune.pickup_once) == (None, False)


def test_a_pickup_played_once_does_not_return_inside_the_tune() -> None:
    text = lesson_text(
        "lick run on I\n pickup once q 1d\n h. 2d q -\nplay\n every I run",
        form=own_form("I | I | I"),
    )
    assert [str(note.tab) for note in tune_of(text).notes] == ["1d", "2d", "2d", "2d"]


def test_the_pickups_of_other_licks_stay() -> None:
    text = lesson_text(
        "lick run on I\n pickup once q 1d\n h. 2d q -\n"
        "lick turn on IV\n pickup q 3d\n h. 4b q -\nplay x2\n every I run\n every IV turn",
        form=own_form("I | IV"),
    )
    assert [str(note.tab) for note in tune_of(text).notes] == [
        "1d", "2d", "3d", "4b", "2d", "3d", "4b",
    ]  # fmt: skip


def test_a_note_held_from_a_pickup_that_is_played_once() -> None:
    body = "lick run on I\n pickup once e 1b 1d\n q = 4d 5d 4d\nplay{times}\n every I run"
    once = lesson_text(body.format(times=""), form=own_form("I"))
    assert notes_of(once)[1] == ("1d", F(-1, 2), F(3, 2))
    again = lesson_text(body.format(times=" x2"), form=own_form("I"))
    problem = only_problem(again)
    assert (problem.code, problem.span.text) == ("hold-nothing", "=")


@pytest.mark.parametrize(("count_in", "counted"), [("0", 1), ("1", 1), ("2", 2)])
def test_a_pickup_has_a_bar_of_count_to_sound_in(count_in: str, counted: int) -> None:
    assert tune_of(led_in_once(count_in=count_in)).count_in == counted
    plain = two("w 2d", "w 4b").replace("tempo", f"count-in {count_in}\ntempo")
    assert tune_of(plain).count_in == int(count_in)
