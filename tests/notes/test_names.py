"""Notes as words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from formsheet.notes.melody import NotesError
from formsheet.notes.names import midi_of, read_names


def tones(text: str, meter: str = "4/4") -> Any:
    return [(t.midi, t.start, t.end) for t in read_names(text, meter).tones]


@pytest.mark.parametrize(
    ("name", "midi"),
    [("C4", 60), ("A4", 69), ("Bb4", 70), ("F#5", 78), ("Cb5", 71), ("B#3", 60), ("C-1", 0)],
)
def test_pitches(name: str, midi: int) -> None:
    """MIDI 1.0: note 60 is middle C, 69 is A4."""
    assert midi_of(name) == midi


def test_values_rests_and_holds_are_the_languages() -> None:
    assert tones("q G4 – e B♭4 = h. C5+E5") == tones("q G4 - e Bb4 = h. C5+E5")
    assert tones("q G4 - e B♭4 = h. C5+E5") == [
        ((67,), 0, 1),
        ((70,), 2, 3),
        ((72, 76), 3, 6),
    ]


def test_triplets() -> None:
    assert [start for _, start, _ in tones("e3 G4 A4 B4 q C5")] == [
        0, Fraction(1, 3), Fraction(2, 3), 1,
    ]  # fmt: skip


def test_a_short_first_bar_is_a_pickup() -> None:
    assert [start for _, start, _ in tones("q G4 | w C5 | w D5")] == [-1, 0, 4]


def test_without_bar_lines_there_is_no_pickup() -> None:
    assert [start for _, start, _ in tones("q G4 w C5")] == [0, 1]


def test_one_bar_alone_may_be_short() -> None:
    assert [start for _, start, _ in tones("q G4 A4 |")] == [0, 1]


@pytest.mark.parametrize(
    ("text", "meter", "message"),
    [
        ("q H4", "4/4", "H4 is B4 here; write B4"),
        ("q G", "4/4", "unknown mark: G;"),
        ("q G4+X4", "4/4", "unknown mark: "),
        ("G4 - =", "4/4", "none sounds before it"),
        ("", "4/4", "this melody has no notes"),
        ("- -", "4/4", "this melody has no notes"),
        ("q C4 | q D4 | w E4", "4/4", "bar 1 has 1 beat, and 4/4 has 4 beats"),
        ("w C4 q D4 | w E4", "4/4", "bar 1 has 5 beats"),
        ("q C4", "5/4", "a lesson cannot be in 5/4"),
        ("q C11", "4/4", "unknown mark: C11;"),
    ],
)
def test_mistakes(text: str, meter: str, message: str) -> None:
    with pytest.raises(NotesError) as caught:
        read_names(text, meter)
    assert message in str(caught.value)
