"""The song's key by position, and spelling as a musician of the key would."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval
from music21 import key as second_key
from music21 import pitch as second_opinion

from formsheet.music import pitch
from formsheet.music.chord import MAJOR_QUALITIES, MINOR_QUALITIES, Chord, parse_chord
from formsheet.music.harp import HARP_KEYS
from formsheet.music.key import Key, key_of_signature, song_key

POSITIONS = range(1, 13)
MODES = ("major", "minor")
ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII")

keys = st.builds(song_key, st.sampled_from(HARP_KEYS), st.sampled_from(POSITIONS), st.booleans())
pitch_classes = st.integers(min_value=0, max_value=11)
signs = st.sampled_from(("", "b", "#"))
chords = st.one_of(
    st.builds(
        lambda sign, numeral, quality: parse_chord(f"{sign}{numeral}{quality}"),
        signs, st.sampled_from(ROMAN), st.sampled_from(sorted(MAJOR_QUALITIES)),
    ),
    st.builds(
        lambda sign, numeral, quality: parse_chord(f"{sign}{numeral.lower()}{quality}"),
        signs, st.sampled_from(ROMAN), st.sampled_from(sorted(MINOR_QUALITIES)),
    ),
)  # fmt: skip


def theirs(name: str) -> str:
    """A name as music21 writes it: its flats are "-"."""
    return name.replace("b", "-")


def signature(tonic: str, mode: str) -> int:
    """Accidentals in the signature of a key, as music21 counts them."""
    return int(abs(second_key.Key(theirs(tonic), mode).sharps))


# Common practice, no source: position n is n-1 fifths above the harp's key.
@pytest.mark.parametrize(
    ("harp", "position", "key"),
    [("C", 1, "C"), ("C", 2, "G"), ("C", 3, "D"), ("C", 4, "A"), ("C", 5, "E"), ("C", 12, "F"),
     ("A", 2, "E"), ("D", 2, "A"), ("F", 2, "C"), ("Bb", 2, "F"), ("Bb", 3, "C"), ("G", 2, "D"),
     ("E", 2, "B"), ("B", 2, "F#"), ("F#", 2, "Db"), ("Gb", 1, "Gb"), ("Ab", 12, "Db")],
)  # fmt: skip
def test_position_as_players_know_it(harp: str, position: int, key: str) -> None:
    assert song_key(harp, position).name == key


@pytest.mark.parametrize(
    ("harp", "position", "key"),
    [("C", 3, "D minor"), ("C", 4, "A minor"), ("C", 5, "E minor"), ("Bb", 3, "C minor"),
     ("Ab", 3, "Bb minor"), ("B", 3, "C# minor"), ("E", 3, "F# minor")],
)  # fmt: skip
def test_minor_position_as_players_know_it(harp: str, position: int, key: str) -> None:
    assert song_key(harp, position, minor=True).name == key


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("harp", HARP_KEYS)
def test_position_is_fifths_up_in_music21(harp: str, position: int, mode: str) -> None:
    start, fifth = second_opinion.Pitch(theirs(harp)), interval.Interval("P5")
    up = (start.pitchClass + (position - 1) * fifth.semitones) % 12
    assert song_key(harp, position, mode == "minor").pitch_class == up


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("harp", HARP_KEYS)
def test_signature_as_music21(harp: str, position: int, mode: str) -> None:
    key = song_key(harp, position, mode == "minor")
    assert key.signature == second_key.Key(theirs(key.tonic), mode).sharps
    assert key_of_signature(key.signature, key.minor) == key


@pytest.mark.parametrize("mode", MODES)
@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("harp", HARP_KEYS)
def test_signature_has_the_fewest_accidentals(harp: str, position: int, mode: str) -> None:
    tonic = song_key(harp, position, mode == "minor").tonic
    other = pitch.name_at_fifths(pitch.fifths(tonic) + (12 if pitch.fifths(tonic) < 0 else -12))
    assert signature(tonic, mode) <= min(6, signature(other, mode))


# Spelling as a musician of the key expects: common practice, no source.
@pytest.mark.parametrize(
    ("tonic", "degree", "name"),
    [("F", 5, "Bb"), ("C", 3, "Eb"), ("C", 6, "Gb"), ("C", 10, "Bb"), ("G", 3, "Bb"),
     ("G", 6, "Db"), ("G", 11, "F#"), ("E", 3, "G"), ("E", 4, "G#"), ("E", 6, "Bb"), ("A", 3, "C"),
     ("A", 6, "Eb"), ("D", 10, "C"), ("Bb", 3, "Db"), ("Bb", 6, "Fb"), ("Eb", 3, "Gb"),
     ("Gb", 5, "Cb"), ("F#", 11, "E#"), ("Db", 3, "Fb"), ("B", 6, "F")],
)  # fmt: skip
def test_note_of_the_key(tonic: str, degree: int, name: str) -> None:
    key = Key(tonic, minor=False)
    assert key.spell((key.pitch_class + degree) % 12) == name


@pytest.mark.parametrize(
    ("tonic", "chord", "note", "name"),
    [("C", "VI7", 1, "C#"), ("C", "II7", 6, "F#"), ("C", "III7", 8, "G#"), ("C", "IV7", 3, "Eb"),
     ("C", "bVI7", 8, "Ab"), ("F", "IV7", 10, "Bb"), ("F", "VI7", 6, "F#"), ("G", "VI7", 8, "G#"),
     ("C", "V+7", 3, "D#"), ("C", "I+", 8, "G#"), ("E", "V7", 3, "D#"), ("C", "V7", 10, "Bb"),
     ("A", "II7", 3, "D#"), ("A", "I7", 3, "Eb"), ("C", "#ivdim7", 3, "Eb"),
     ("C", "viidim7", 8, "Ab")],
)  # fmt: skip
def test_note_over_a_chord(tonic: str, chord: str, note: int, name: str) -> None:
    assert Key(tonic, minor=False).spell(note, parse_chord(chord)) == name


@pytest.mark.parametrize(
    ("midi", "name"), [(60, "C4"), (59, "B3"), (63, "Eb4"), (66, "Gb4"), (70, "Bb4")]
)
def test_note_with_its_octave(midi: int, name: str) -> None:
    assert Key("C", minor=False).spell_octave(midi) == name


def test_octave_follows_the_letter_and_not_the_sound() -> None:
    assert Key("Gb", minor=False).spell_octave(71) == "Cb5"


def test_octave_note_over_a_chord() -> None:
    assert Key("C", minor=False).spell_octave(61, parse_chord("VI7")) == "C#4"


@given(keys, pitch_classes)
def test_spelling_keeps_the_note(key: Key, note: int) -> None:
    assert pitch.pitch_class(key.spell(note)) == note


@given(keys, pitch_classes, chords)
def test_spelling_over_a_chord_keeps_the_note(key: Key, note: int, chord: Chord) -> None:
    assert pitch.pitch_class(key.spell(note, chord)) == note


@given(keys, pitch_classes, st.none() | chords)
def test_spelling_has_one_accidental_at_most(key: Key, note: int, chord: Chord | None) -> None:
    assert abs(pitch.split_name(key.spell(note, chord))[1]) <= 1


@given(keys, st.integers(min_value=24, max_value=108), st.none() | chords)
def test_octave_name_sounds_its_note(key: Key, midi: int, chord: Chord | None) -> None:
    assert second_opinion.Pitch(theirs(key.spell_octave(midi, chord))).midi == midi


@pytest.mark.parametrize("tonic", ["D#", "G#"])
@pytest.mark.parametrize("numeral", ["#III", "#VII"])
def test_odd_numeral_in_a_sharp_key_is_simplified(tonic: str, numeral: str) -> None:
    """Letters alone would ask for three sharps."""
    plain = {"#III": 5, "#VII": 0}[numeral] + pitch.pitch_class(tonic)
    assert pitch.pitch_class(parse_chord(numeral).root_name(tonic)) == plain % 12


# Common practice, no source: six accidentals at most; of six sharps and six flats, the sharps.
@pytest.mark.limit("music.key._MOST_ACCIDENTALS")
@pytest.mark.parametrize(
    ("harp", "position", "tonic"), [("C", 7, "F#"), ("G", 7, "Db"), ("F", 7, "B")]
)
def test_a_key_of_many_accidentals(harp: str, position: int, tonic: str) -> None:
    assert song_key(harp, position).tonic == tonic
