"""Which key a melody is in, held against a second opinion."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from formsheet.music import pitch
from formsheet.notes.keyfinding import MAJOR, MINOR, found_key
from formsheet.notes.melody import Tone
from formsheet.notes.names import read_names

#: The general music library, for a second opinion.
M21: Any = pytest.importorskip("music21")


def key(text: str, signature: int | None = None) -> str:
    return found_key(read_names(text).tones, signature).name


@pytest.mark.parametrize(
    ("notes", "name"),
    [
        ("q C4 D4 E4 F4 G4 A4 B4 C5", "C"),
        ("q Bb3 D4 F4 Bb4 C5 D5 F4 Bb3", "Bb"),
        ("q A4 C5 B4 D5 C5 E5 A4 E4 h A4", "A minor"),
        ("q F#4 A4 C#5 F#5 E5 C#5 F#4", "F# minor"),
    ],
)
def test_plain_melodies(notes: str, name: str) -> None:
    assert key(notes) == name


@pytest.mark.parametrize(
    ("notes", "name"),
    [
        ("q G4 C5 Bb4 Db5 C5 Bb4 G4", "G minor"),
        ("q A4 C5 D5 Eb5 E5 G5 E5 C5 h A4", "A minor"),
        ("q G4 Bb4 B4 D5 Db5 C5 Bb4 G4", "G"),  # both thirds
        ("q G4 C5 Bb4 Db5 C5 Bb4 F4", "F minor"),  # it does not end at home
        ("q C5 D5 Eb5 F5 G5 Ab5 F#5 G5 Eb5 C5", "C minor"),  # a sixth that is not of the scale
    ],
)
def test_a_blues_scale_is_told_by_its_notes(notes: str, name: str) -> None:
    """Common practice, no source."""
    assert key(notes) == name


@pytest.mark.parametrize(("signature", "names"), [(0, ("C", "A minor")), (-2, ("Bb", "G minor"))])
def test_a_signature_leaves_two(signature: int, names: tuple[str, str]) -> None:
    assert key("q A4 C5 E5 A5", signature) in names


def test_all_notes_alike_are_in_some_key() -> None:
    assert key("q C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4")


def test_the_profiles_are_the_published_ones() -> None:
    """As the music21 package has them (`analysis.discrete.TemperleyKostkaPayne`)."""
    known = M21.analysis.discrete.TemperleyKostkaPayne()
    assert known.getWeights("major") == pytest.approx(list(MAJOR))
    assert known.getWeights("minor") == pytest.approx(list(MINOR))


def told_as_blues(tones: Sequence[Tone]) -> bool:
    """Whether a blue third and a blue fifth stand over the last note."""
    home = tones[-1].midi[0]
    return {3, 6} <= {(midi - home) % 12 for tone in tones for midi in tone.midi}


pitches = st.sampled_from(["C", "D", "E", "F", "G", "A", "B", "Bb", "F#", "Eb"])
names = st.builds("{}{}".format, pitches, st.sampled_from("45"))


@settings(max_examples=15, derandomize=True, deadline=None, database=None)
@given(st.lists(names, min_size=3, max_size=12))
def test_as_the_library_finds_it(notes: list[str]) -> None:
    line = M21.stream.Stream()
    for name in notes:
        line.append(M21.note.Note(name.replace("b", "-")))
    second = line.analyze("key.temperley")
    rivals = [second, *second.alternateInterpretations]
    tones = read_names(" ".join(["q", *notes])).tones
    assume(not told_as_blues(tones))
    found = found_key(tones)
    same = [
        each.correlationCoefficient
        for each in rivals
        if (each.tonic.pitchClass, each.mode == "minor")
        == (pitch.pitch_class(found.tonic), found.minor)
    ]
    assert same[0] == pytest.approx(second.correlationCoefficient)
