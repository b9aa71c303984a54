"""Pitch names, MIDI numbers and hertz, against published values and a general music library."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import pitch as second_opinion

from formsheet.music import pitch

SIGNS = ("bb", "b", "", "#", "##")
NAMES = [letter + signs for letter in pitch.LETTERS for signs in SIGNS]

names = st.sampled_from(NAMES)
# From C1 up: music21 would read the minus of a negative octave as a flat.
midi_numbers = st.integers(min_value=24, max_value=115)


def theirs(name: str) -> str:
    """A name as music21 writes it: its flats are "-"."""
    return name.replace("b", "-")


# ISO 16:1975 gives A4; the others are the usual published table of equal temperament for
# MIDI notes (from memory), rounded to a thousandth of a hertz.
HERTZ = {
    21: 27.5,
    40: 82.407,
    55: 195.998,
    57: 220.0,
    59: 246.942,
    60: 261.626,
    63: 311.127,
    66: 369.994,
    69: 440.0,
    72: 523.251,
    81: 880.0,
    96: 2093.005,
    108: 4186.009,
}


@pytest.mark.parametrize(("midi", "hertz"), HERTZ.items())
def test_hertz_as_published(midi: int, hertz: float) -> None:
    assert pitch.hertz(midi) == pytest.approx(hertz, abs=0.0005)


@pytest.mark.parametrize("midi", range(128))
def test_hertz_as_music21(midi: int) -> None:
    assert pitch.hertz(midi) == pytest.approx(second_opinion.Pitch(midi=midi).frequency)


def test_hertz_between_two_keys_of_a_piano() -> None:
    assert pitch.hertz(68.5) == pytest.approx(440 * 2 ** (-1 / 24))


@pytest.mark.parametrize("name", NAMES)
def test_pitch_class_as_music21(name: str) -> None:
    assert pitch.pitch_class(name) == second_opinion.Pitch(theirs(name)).pitchClass


@pytest.mark.parametrize(
    "text", ["", "H", "c", "b", "Cx", "C#b", "Cb#", "C####", "C4", " C", "C\n"]
)
def test_no_pitch_name(text: str) -> None:
    with pytest.raises(ValueError, match="not a pitch name"):
        pitch.split_name(text)


def test_real_signs_are_read_as_letters() -> None:
    assert pitch.plain_signs("B♭ F♯ Gb E") == "Bb F# Gb E"


@pytest.mark.parametrize(
    ("name", "place"),
    [("Fbb", -15), ("Gb", -6), ("Bb", -2), ("F", -1), ("C", 0), ("G", 1), ("B", 5), ("F#", 6),
     ("B##", 19)],
)  # fmt: skip
def test_place_on_the_line_of_fifths(name: str, place: int) -> None:
    assert (pitch.fifths(name), pitch.name_at_fifths(place)) == (place, name)


@pytest.mark.parametrize("place", range(-15, 19))
def test_next_place_is_a_perfect_fifth_as_music21(place: int) -> None:
    fifth = second_opinion.Pitch(theirs(pitch.name_at_fifths(place))).transpose("P5")
    assert theirs(pitch.name_at_fifths(place + 1)) == fifth.name


@pytest.mark.parametrize("alteration", range(-2, 3))
def test_accidentals_are_read_back(alteration: int) -> None:
    assert pitch.split_name("D" + pitch.accidentals(alteration)) == ("D", alteration)


@pytest.mark.parametrize(
    ("start", "letters", "semitones", "name"),
    [("C", 2, 3, "Eb"), ("C", 1, 3, "D#"), ("F", 3, 5, "Bb"), ("A", 2, 4, "C#"), ("B", 4, 6, "F"),
     ("Gb", 2, 3, "Bbb"), ("F#", 6, 11, "E#"), ("C", 0, 0, "C"), ("C", 6, 0, "B#"),
     ("C", 1, 0, "Dbb")],
)  # fmt: skip
def test_letters_and_semitones_above(start: str, letters: int, semitones: int, name: str) -> None:
    assert pitch.steps_above(start, letters, semitones) == name


@pytest.mark.parametrize(
    ("name", "plain"),
    [("Abb", "G"), ("Bbb", "A"), ("Fbb", "Eb"), ("F##", "G"), ("B##", "C#"), ("F###", "G#"),
     ("Cb", "Cb"), ("E#", "E#"), ("D", "D")],
)  # fmt: skip
def test_simplified(name: str, plain: str) -> None:
    assert pitch.simplified(name) == plain


@given(names)
def test_simplified_is_the_same_key_of_a_piano(name: str) -> None:
    assert pitch.pitch_class(pitch.simplified(name)) == pitch.pitch_class(name)


@given(names)
def test_simplified_has_one_accidental_at_most(name: str) -> None:
    assert abs(pitch.split_name(pitch.simplified(name))[1]) <= 1


@pytest.mark.parametrize(
    ("name", "midi", "spelled"),
    [("C", 60, "C4"), ("B", 59, "B3"), ("B#", 60, "B#3"), ("Cb", 71, "Cb5"), ("A", 69, "A4"),
     ("Cb", 59, "Cb4"), ("B#", 72, "B#4"), ("F#", 66, "F#4"), ("C", 0, "C-1")],
)  # fmt: skip
def test_octave_number(name: str, midi: int, spelled: str) -> None:
    assert pitch.with_octave(name, midi) == spelled


@given(names, midi_numbers)
def test_octave_name_sounds_its_midi_number_in_music21(name: str, low: int) -> None:
    midi = low + (pitch.pitch_class(name) - low) % 12
    assert second_opinion.Pitch(theirs(pitch.with_octave(name, midi))).midi == midi
