"""Onsets, held notes and seconds. At 60 beats a minute a beat is a second."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.helpers import lesson_text, notes_of, over, own_form, tune_of


def onsets(music: str, chords: str = "I", **facts: str) -> list[tuple[F, F]]:
    """Onset in the tune and length of each note, in quarters."""
    return [(onset, length) for _, onset, length in notes_of(over(chords, music, **facts))]


def seconds(music: str, chords: str = "I", **facts: str) -> list[tuple[float, float]]:
    """Start and end of each note."""
    notes = tune_of(over(chords, music, **facts)).notes
    return [(note.start_s, note.end_s) for note in notes]


def starts(music: str, chords: str = "I", **facts: str) -> list[float]:
    return [start for start, _ in seconds(music, chords, **facts)]


# ---- Notes joined by holds ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("music", "chords", "expected"),
    [
        ("q 2d = = =", "I", [(F(0), F(4))]),
        ("q 2d = 3d -", "I", [(F(0), F(2)), (F(2), F(1))]),
        ("h 2d 3d | q = - 4d =", "I | I", [(F(0), F(2)), (F(2), F(3)), (F(6), F(2))]),
        ("w 2d | = | =", "I | I | I", [(F(0), F(12))]),
        ("h. 2d e3 3d = 4d", "I", [(F(0), F(3)), (F(3), F(2, 3)), (F(11, 3), F(1, 3))]),
        ("e 2d q 3d = = e 4d", "I", [(F(0), F(1, 2)), (F(1, 2), F(3)), (F(7, 2), F(1, 2))]),
        ("q [2d =]x2", "I", [(F(0), F(2)), (F(2), F(2))]),
        # The same note struck twice is two notes.
        ("h 2d 2d", "I", [(F(0), F(2)), (F(2), F(2))]),
    ],
)
def test_notes(music: str, chords: str, expected: list[tuple[F, F]]) -> None:
    assert onsets(music, chords) == expected


def test_pitches_of_notes() -> None:
    """C harp: 2 draw G4 (67), its whole-step bend F4; holes 1 to 3 draw D, G, B."""
    notes = tune_of(over("I", "q 2d 2d'' 123d 6ob")).notes
    assert [note.midi for note in notes] == [(67,), (65,), (62, 67, 71), (82,)]


def test_bar_of_a_note_is_that_in_which_it_starts() -> None:
    notes = tune_of(over("I | I", "h 2d 3d | q = - 4d =")).notes
    assert [note.bar for note in notes] == [0, 0, 1]


def test_a_rest_is_no_note() -> None:
    assert onsets("q - 2d - -") == [(F(1), F(1))]


def test_a_tune_of_rests_has_no_notes() -> None:
    assert notes_of(lesson_text("play\n bars 1-2 rest", form=own_form("I | I"))) == []


# ---- Seconds -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("feel", "eighths"),
    [
        ("straight", [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]),
        ("swing", [0, 2 / 3, 1, 5 / 3, 2, 8 / 3, 3, 11 / 3]),
        ("swing 2:1", [0, 2 / 3, 1, 5 / 3, 2, 8 / 3, 3, 11 / 3]),
        ("swing 3:2", [0, 0.6, 1, 1.6, 2, 2.6, 3, 3.6]),
        ("swing 60%", [0, 0.6, 1, 1.6, 2, 2.6, 3, 3.6]),
        ("swing 3:1", [0, 0.75, 1, 1.75, 2, 2.75, 3, 3.75]),
        ("swing 50%", [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]),
    ],
)
def test_eighths(feel: str, eighths: list[float]) -> None:
    music = "e 2d 3d 2d 3d 2d 3d 2d 3d"
    assert starts(music, feel=feel) == pytest.approx(eighths)
    assert [end for _, end in seconds(music, feel=feel)] == pytest.approx([*eighths[1:], 4])


@pytest.mark.parametrize(
    ("music", "expected"),
    [
        # Triplets and sixteenths are played as written.
        ("e3 2d 3d 2d h. -", [0, 1 / 3, 2 / 3]),
        ("s 2d 3d 2d 3d h. -", [0, 0.25, 0.5, 0.75]),
        # A beat with a sixteenth in it does not swing, its eighth neither.
        ("e 2d s 3d 2d h. -", [0, 0.5, 0.75]),
        ("e. 2d s 3d h. -", [0, 0.75]),
        # But its neighbours do.
        ("s 2d 3d 2d 3d e 2d 3d h -", [0, 0.25, 0.5, 0.75, 1, 5 / 3]),
        ("e3 2d 3d 2d e 2d 3d h -", [0, 1 / 3, 2 / 3, 1, 5 / 3]),
        # An eighth after an eighth rest, or after a dotted quarter, is the second of its pair.
        ("e - 3d h. -", [2 / 3]),
        ("q. 2d e 3d h -", [0, 5 / 3]),
        # A quarter that begins between two beats begins with the second of the pair.
        ("e 2d q 3d e 2d h -", [0, 2 / 3, 5 / 3]),
        ("e 2d q 3d 2d 3d e 2d", [0, 2 / 3, 5 / 3, 8 / 3, 11 / 3]),
        # A held eighth is an eighth.
        ("q 2d e = 3d h -", [0, 5 / 3]),
    ],
)
def test_what_swings(music: str, expected: list[float]) -> None:
    assert starts(music, feel="swing") == pytest.approx(expected)


def test_a_quarter_across_two_swung_beats_lasts_a_second_still() -> None:
    ((start, end),) = seconds("e - q 2d e - h -", feel="swing")
    assert (start, end) == pytest.approx((2 / 3, 5 / 3))


@pytest.mark.parametrize("feel", ["straight", "swing", "swing 3:1"])
@pytest.mark.parametrize(
    ("meter", "music", "expected"),
    [
        # The beat is a dotted quarter: an eighth is a third of a second at 60.
        ("12/8", "e 2d 3d 2d q. - - -", [0, 1 / 3, 2 / 3]),
        ("12/8", "q 2d e 3d q. - q 2d e 3d q. -", [0, 2 / 3, 2, 8 / 3]),
        ("12/8", "e. 2d 3d q. - - -", [0, 0.5]),  # two in the time of three
        ("6/8", "e 2d 3d 2d 3d 2d 3d", [0, 1 / 3, 2 / 3, 1, 4 / 3, 5 / 3]),
    ],
)
def test_nothing_swings_where_the_beat_is_dotted(
    feel: str, meter: str, music: str, expected: list[float]
) -> None:
    assert starts(music, meter=meter, feel=feel) == pytest.approx(expected)


def test_three_four_swings() -> None:
    assert starts("e 2d 3d q 2d 2d", meter="3/4", feel="swing") == pytest.approx([0, 2 / 3, 1, 2])


@pytest.mark.parametrize(
    ("feel", "music", "expected"),
    [
        ("swing", "e 2d 3d straight 2d 3d 2d 3d swing 2d 3d",
         [0, 2 / 3, 1, 1.5, 2, 2.5, 3, 11 / 3]),
        ("straight", "e 2d 3d swing 2d 3d 2d 3d straight 2d 3d",
         [0, 0.5, 1, 5 / 3, 2, 8 / 3, 3, 3.5]),
        # `swing` goes back to the lesson's own ratio.
        ("swing 3:2", "straight e 2d 3d swing 2d 3d h -", [0, 0.5, 1, 1.6]),
    ],
)  # fmt: skip
def test_swing_marks(feel: str, music: str, expected: list[float]) -> None:
    assert starts(music, feel=feel) == pytest.approx(expected)


def test_swing_mark_reaches_the_licks_end_and_no_farther() -> None:
    text = lesson_text(
        "lick a on I\n straight e 2d 3d h. -\nlick b on IV\n e 4b 5b h. -\n"
        "play\n every I a\n every IV b",
        form=own_form("I | IV"),
        feel="swing",
    )
    assert [n.start_s for n in tune_of(text).notes] == pytest.approx([0, 0.5, 4, 4 + 2 / 3])


def test_pickup_swings_as_the_lesson_does() -> None:
    text = over("I", "pickup e 1d 1b\n w 2d", feel="swing")
    assert [n.start_s for n in tune_of(text).notes] == pytest.approx([-1, -1 / 3, 0])


def test_swing_mark_of_the_lick_before_does_not_reach_a_pickup() -> None:
    text = lesson_text(
        "lick a on I\n straight e 2d 3d h. -\nlick b on IV\n pickup e 1d 1b\n w 4b\n"
        "play\n every I a\n every IV b",
        form=own_form("I | IV"),
        feel="swing",
    )
    assert [n.start_s for n in tune_of(text).notes] == pytest.approx([0, 0.5, 3, 11 / 3, 4])


@pytest.mark.parametrize(
    ("tempo", "last"), [("60", 3.0), ("120", 1.5), ("90", 2.0), ("92.5", 3 * 60 / 92.5)]
)
def test_tempo(tempo: str, last: float) -> None:
    assert starts("q 2d 3d 2d 3d", tempo=tempo)[-1] == pytest.approx(last)


def test_tempo_of_dotted_beats() -> None:
    assert starts("q. 2d 3d 2d 3d", meter="12/8", tempo="120") == pytest.approx([0, 0.5, 1, 1.5])


@pytest.mark.parametrize(("bars", "last"), [(1, 3.0), (12, 47.0)])
def test_seconds_go_on_from_bar_to_bar(bars: int, last: float) -> None:
    music = " | ".join(["q 2d 2d 2d 2d"] * bars)
    assert starts(music, " | ".join(["I"] * bars))[-1] == last
