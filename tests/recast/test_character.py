"""What a lick lives by: its draw and blow, or one note.

That a train keeps its breath and that a lick keeps the note that it is named for is common
practice, no source. How both are found is our own choice.
"""

from __future__ import annotations

import pytest

from formsheet.lesson.model import Lick
from formsheet.recast.character import Character, MadeBy, character
from tests.helpers import lesson_of, lesson_text, over, own_form

TRAIN = "[ e 12d 12d 12b 12b ]x2"


def of(music: str, name: str = "run") -> Character:
    """A lick in G, C harp; its name may have a title behind it."""
    plain = name.split(maxsplit=1)[0]
    text = f"lick {name} on I7\n{music}\nplay\n every I7 {plain}\n every V7 rest"
    lesson = lesson_of(lesson_text(text, form=own_form("I7 | V7")))
    lick: Lick = lesson.licks[plain]
    return character(lick, lesson.facts, lesson.key, lesson.licks)


# ---- Breath --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("music", "words"),
    [
        (TRAIN, "draw draw blow blow"),
        ("e 12d 12b 12d 12b 12d 12b 12d -", "draw blow"),
        ("e 123d 123b 123d 123b q 123d 123d", "draw blow"),  # the last note is free
        ("q 123d - e 123d 123d q -", "draw"),  # a chug
        ("e 4b 4d 5b 5d 6b 6d 6b 5d", None),  # a scale turns at each step, and is a melody
        ("e 2d 2d 4b 4b 4d 4d 4b 4b", None),  # so is a boogie
        ("q 123d 4d 3d 2d", None),
        ("q 12d 12d 12b -", None),  # no second round
        ("w -", None),
    ],
)
def test_the_breath_that_a_lick_lives_by(music: str, words: str | None) -> None:
    found = of(music).breath
    assert (found.words if found else None) == words


@pytest.mark.limit("recast.character.MOST_PLACES")
@pytest.mark.parametrize(
    ("music", "train"),
    [
        ("e 1d 2b 1d 2b 1d 2b q 2d", True),  # two, and the note on which it comes to rest
        ("e 1d 2b 1d 3b 1d 2b q 2d", False),
    ],
)
def test_a_train_of_single_notes_has_two_places(music: str, train: bool) -> None:
    """Our own choice: with three it is a melody."""
    assert bool(of(music).breath) is train


@pytest.mark.limit("recast.character.LEAST_CHUGS")
@pytest.mark.parametrize(("music", "chug"), [("q 123d 123d 123d -", True), ("h 123d 123d", False)])
def test_three_chords_are_a_chug(music: str, chug: bool) -> None:
    """Our own choice."""
    assert bool(of(music).breath) is chug


def test_draw_and_blow_may_change_places() -> None:
    pattern = of(TRAIN).breath
    assert pattern
    for music, kept, swapped in (
        ("[ e 45d 45d 45b 45b ]x2", True, False),
        ("[ e 12b 12b 12d 12d ]x2", True, True),
        ("[ e 12b 12d 12d 12b ]x2", False, False),
    ):
        tabs = of(music).tabs
        assert (pattern.kept(tabs), pattern.swapped(tabs)) == (kept, swapped)


# ---- The note that makes it ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "music", "made_by"),
    [
        ("flat-five", "e 4d 4d' 4b 3d' q 2d -", MadeBy("b5", True, (1,))),
        ('a "A blue third"', "e 4d 3d' q 3d' 2d -", MadeBy("b3", True, (2,))),  # where it stays
        ('a "The flat seventh"', "q 5d 4d 3d -", MadeBy("b7", True, (0,))),
        ("flat-five", "q 4d 4b 3d -", None),  # it has no flat five
        ("run", "h 3d' q 2d -", MadeBy("b3", False, (0,))),  # the lick rests on it
        ("run", "h 6d'! q 6b -", MadeBy("b9", False, (0,))),  # meant
        ("run", "h 3d' 4d'", None),  # two such notes
        ("run", "h 5d q 4d -", None),  # the b7 is of the chord
        ("run", "e 3d' 3d q 2d h -", None),  # the blue third does not stay
        ("run", "h 4d q 2d -", None),
    ],
)
def test_the_note_that_makes_a_lick(name: str, music: str, made_by: MadeBy | None) -> None:
    assert of(music, name).made_by == made_by


def test_it_is_kept_by_its_degree_or_by_its_pitch() -> None:
    home = of("e 4d 4d' 4b 3d' q 2d -", "flat-five")
    four, five = (lesson_of(over(each, "w -")).form.bars[0][0] for each in ("IV7", "V7"))
    db, f_sharp, ab, d = 73, 66, 68, 74
    assert home.keeps_note(1, (db,), four)  # its pitch
    assert home.keeps_note(1, (f_sharp,), four)  # the b5 of C7
    assert home.keeps_note(1, (ab,), five)  # the b5 of D7
    assert not home.keeps_note(1, (d,), five)
