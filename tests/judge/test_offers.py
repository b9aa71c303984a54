"""Notes of the harp that may be played instead of others: chord tones, the same pitch elsewhere.

A C harp in 2nd position: G7 is G B D F, C7 is C E G Bb, D7 is D F# A C.
"""

from __future__ import annotations

import pytest

from formsheet.judge.harmony import pitch_classes
from formsheet.judge.offers import (
    chord_tones_near,
    chords_near,
    same_pitch,
    singles_for,
    singles_near,
)
from formsheet.music.chord import parse_chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.tab import Breath, Tab
from formsheet.tune.timeline import Note, Tune
from tests.helpers import lesson_of, over, tune_of


def lick(chord: str, music: str, **facts: str) -> tuple[Tune, Note]:
    """A tune and its first note."""
    tune = tune_of(over(chord, music, **facts))
    return tune, tune.notes[0]


# Common practice, no source: what the chords are.
@pytest.mark.parametrize(
    ("numeral", "tones"), [("I7", {7, 11, 2, 5}), ("IV7", {0, 4, 7, 10}), ("V", {2, 6, 9})]
)
def test_tones_of_a_chord(numeral: str, tones: set[int]) -> None:
    assert pitch_classes(parse_chord(numeral), Key("G", minor=False)) == tones


# Our own choice: `judge/level.py`.
@pytest.mark.parametrize(("level", "deepest"), [("beginner", 1), ("improver", 3), ("advanced", 3)])
def test_singles_are_those_of_the_level(level: str, deepest: int) -> None:
    singles = [tab for tab, _ in singles_for(lesson_of(over("I7", "w 2d", level=level)))]
    assert max(tab.bend for tab in singles) == deepest
    assert not [tab for tab in singles if tab.overbend]


# Our own choice: three of them, within a fifth (seven half steps), fewest bends first if equally
# near. Worked by hand.
@pytest.mark.limit("judge.offers.NEAR", "judge.offers.MOST_OFFERS")
@pytest.mark.parametrize(
    ("chord", "tab", "level", "offered"),
    [
        # F4 by a bend over G7: G4 a whole step up (2 draw for 3 blow, one tab a pitch), D4, B4.
        ("I7", "2d''", "beginner", ["2d", "1d", "3d"]),
        # Over C7: E4, G4 and C4.
        ("IV7", "2d''", "beginner", ["2b", "2d", "1b"]),
        # An overblow: Bb5 over G7: B5, A5 is no tone of it; G5, D6.
        ("I7", "6ob", "improver", ["7d", "6b", "8d"]),
        # C4 over G: D4, and G4, which is seven half steps away. B4 is eleven.
        ("I", "1b!", "beginner", ["1d", "2d"]),
        # Bb4 over D: D5 and F#4, both four away; D4 is eight.
        ("V", "3d'!", "beginner", ["4d", "2d'"]),
    ],
)
def test_chord_tones_near(chord: str, tab: str, level: str, offered: list[str]) -> None:
    tune, note = lick(chord, f"w {tab}", level=level)
    assert chord_tones_near(note, parse_chord(chord), tune.lesson) == offered


# From the layout of the reeds. Common practice, no source: 2 draw and 3 blow are one pitch.
@pytest.mark.parametrize(
    ("tab", "others"),
    [
        ("2d", ["3b"]),
        ("3b", ["2d"]),
        ("3ob", ["4b"]),  # C, a half step above 3 draw
        ("6ob", []),  # Bb, between 6 draw and 7 blow
        ("3d'''", []),
    ],
)
def test_same_pitch_elsewhere(tab: str, others: list[str]) -> None:
    _, note = lick("I7", f"w {tab}!", level="advanced")
    assert same_pitch(note, Harp("C")) == others


# Our own choice: within three holes, those on the breath of the second note first.
@pytest.mark.parametrize(
    ("chord", "music", "offered"),
    [
        ("I7", "q 2d 9d h 2d", ["2d", "1d", "3d"]),
        ("I7", "q 4d 9b h 2d", ["3b", "6b", "4d"]),
    ],
)
def test_natural_chord_tones_near_the_note_before(
    chord: str, music: str, offered: list[str]
) -> None:
    tune = tune_of(over(chord, music))
    assert singles_near(tune.notes[0].tab, tune.notes[1], tune) == offered


# Our own choice: as many holes on the same breath first, then splits, the nearest first.
@pytest.mark.parametrize(
    ("block", "numeral", "first"),
    [
        ("123d", "I7", ["123d", "234d", "345d"]),
        ("123d", "IV7", ["123b", "234b", "345b"]),
        ("34d", "IV7", ["34b", "23b", "45b"]),
        # Common practice, no source: V has no block of three; its root is doubled instead.
        ("123d", "V7", ["14d", "46d", "48d"]),
    ],
)
def test_blocks_and_splits_near_a_block(block: str, numeral: str, first: list[str]) -> None:
    tab = Tab(tuple(map(int, block[:-1])), Breath(block[-1]))
    tones = pitch_classes(parse_chord(numeral), Key("G", minor=False))
    assert [str(each) for each in chords_near(tab, Harp("C"), tones)[:3]] == first
