"""Tunings: built in, and of the file's own."""

from __future__ import annotations

import pytest

from formsheet.music.harp import Harp
from formsheet.music.tab import Breath
from formsheet.music.tunings import RICHTER, TUNINGS, Tuning
from tests.helpers import lesson_of, lesson_text, only_problem, slugs_of

RESTS = "play\n  bars 1-12 rest"
BLOW = "C E G C E G C E G C"
DRAW = "D G B D F A B D F A"


def own(blow: str = BLOW, draw: str = DRAW) -> str:
    return f"campfire\n  blow {blow}\n  draw {draw}"


def harp_of(tuning: str, key: str = "C") -> Harp:
    return lesson_of(lesson_text(RESTS, tuning=tuning, harp=key)).facts.harp


def tuning_of(tuning: str) -> Tuning:
    return harp_of(tuning).tuning


@pytest.mark.parametrize("name", TUNINGS)
def test_built_in_tuning(name: str) -> None:
    assert tuning_of(name) == TUNINGS[name]


@pytest.mark.parametrize("written", ["Natural Minor", "natural-minor", '"natural minor"'])
def test_name_of_a_built_in_tuning_is_read_kindly(written: str) -> None:
    assert tuning_of(written) == TUNINGS["natural minor"]


def test_richter_spelled_out_is_richter() -> None:
    found = tuning_of(own())
    assert (found.name, found.blow, found.draw) == ("campfire", RICHTER.blow, RICHTER.draw)


def test_rows_in_the_other_order() -> None:
    rows = own().splitlines()
    assert tuning_of("\n".join([rows[0], rows[2], rows[1]])).draw == RICHTER.draw


# Each note is the nearest at or above the one before; worked by hand.
@pytest.mark.limit("lesson.tuning.LOWEST_C", "lesson.tuning._WIDEST")
@pytest.mark.parametrize(
    ("blow", "row"),
    [
        # The same note twice is the same reed, not one an octave up.
        ("C C G C E G C E G C", (0, 0, 7, 12, 16, 19, 24, 28, 31, 36)),
        # Fa sharp in hole 3: below the C that follows.
        ("C E F# C E G C E G C", (0, 4, 6, 12, 16, 19, 24, 28, 31, 36)),
        ("C Eb G C E♭ G C D# G C", (0, 3, 7, 12, 15, 19, 24, 27, 31, 36)),
        # An octave number sets the place; the notes after it go on from there.
        ("C4 E4 G4 C5 E5 G5 C6 E6 G6 C7", (0, 4, 7, 12, 16, 19, 24, 28, 31, 36)),
        ("C E G C E G E5 E6 G C", (0, 4, 7, 12, 16, 19, 16, 28, 31, 36)),
        # Signs belong to the letter's octave: Cb5 is a semitone below C5, B#4 is C5.
        ("C E G Cb5 E G C E G C", (0, 4, 7, 11, 16, 19, 24, 28, 31, 36)),
        ("C E G B#4 E G C E G C", (0, 4, 7, 12, 16, 19, 24, 28, 31, 36)),
        # Five octaves above hole 1: the highest that is read. Our own choice.
        ("C E G C E G C E G C9", (0, 4, 7, 12, 16, 19, 24, 28, 31, 60)),
    ],
)
def test_own_row(blow: str, row: tuple[int, ...]) -> None:
    assert tuning_of(own(blow=blow)).blow == row


def test_draw_row_begins_at_or_above_hole_1_blow() -> None:
    assert tuning_of(own(draw="C G B D F A B D F A")).draw[0] == 0


def test_notes_are_those_of_a_c_harp_whatever_hole_1_sounds() -> None:
    """Hole 1 blow raised to D: D4 on a C harp, E4 on a D harp."""
    rows = own(blow="D E G C E G C E G C", draw="E G B D F A B D F A")
    assert [harp_of(rows, key).reed(1, Breath.BLOW) for key in ("C", "D")] == [62, 64]
    assert [harp_of(rows, key).reed(1, Breath.DRAW) for key in ("C", "D")] == [64, 66]


@pytest.mark.limit("lesson.tuning.LOWEST_C", "lesson.tuning._WIDEST")
@pytest.mark.parametrize(
    ("tuning", "slug", "spot"),
    [
        ("natrual minor", "tuning-unknown", "natrual minor"),
        (own(blow="C E G C E G C E G"), "tuning-holes", "C E G C E G C E G"),
        (own(draw=f"{DRAW} C"), "tuning-holes", f"{DRAW} C"),
        (own(blow="C E G C E G C E G H"), "tuning-note", "H"),
        (own(blow="C E G H Fis G C E G C"), "tuning-names", "C E G H Fis G C E G C"),
        (own(blow="C E G C E G C E G c"), "tuning-note", "c"),
        (own(blow="C E G C E G C E G C#9"), "tuning-range", "C#9"),
        (own(blow="B3 E G C E G C E G C"), "tuning-range", "B3"),
        ("campfire\n  blow " + BLOW, "tuning-row-missing", "campfire"),
        ("campfire\n  draw " + DRAW, "tuning-row-missing", "campfire"),
        (own() + "\n  blow " + BLOW, "tuning-row-twice", "blow"),
    ],
)
def test_tuning_that_is_wrong(tuning: str, slug: str, spot: str) -> None:
    problem = only_problem(lesson_text(RESTS, tuning=tuning))
    assert (problem.code, problem.span.text) == (slug, spot)


def test_every_note_that_is_none_is_told() -> None:
    text = lesson_text(RESTS, tuning=own(blow="C X G C E Y C E G C", draw="Z G B D F A B D F A"))
    assert slugs_of(text) == ["tuning-note"] * 3


def test_unknown_tuning_names_the_nearest() -> None:
    assert (
        only_problem(lesson_text(RESTS, tuning="natrual minor")).fields["near"] == "natural minor"
    )


def test_nothing_is_said_of_bends_on_a_tuning_that_cannot_be_read() -> None:
    text = lesson_text(
        "lick a on I, IV, V\n w 2d'''\nplay\n every I a\n every IV a\n every V a", tuning="bugle"
    )
    assert slugs_of(text) == ["tuning-unknown"]
