"""Degrees against a general music library's intervals."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval
from music21 import pitch as second_opinion

from formsheet.music import pitch
from formsheet.music.degree import DEGREES, MINOR_PENTATONIC, degree, spelled

# A degree as the interval that a theory book calls it.
INTERVALS = {
    "R": "P1", "b9": "m2", "9": "M2", "b3": "m3", "3": "M3", "4": "P4", "b5": "d5", "5": "P5",
    "b6": "m6", "6": "M6", "b7": "m7", "7": "M7",
}  # fmt: skip
ROOTS = ("C", "G", "D", "A", "E", "B", "F#", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C#", "G#", "D#")

pitch_classes = st.integers(min_value=0, max_value=11)


@pytest.mark.parametrize(("name", "size"), INTERVALS.items())
def test_degree_is_as_wide_as_its_interval(name: str, size: str) -> None:
    assert DEGREES[int(interval.Interval(size).semitones)] == name


def test_every_distance_has_a_degree() -> None:
    assert set(DEGREES) == set(INTERVALS)


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize(("name", "size"), INTERVALS.items())
def test_spelled_as_music21_counts_letters(root: str, name: str, size: str) -> None:
    theirs = second_opinion.Pitch(root.replace("b", "-")).transpose(size).name.replace("-", "b")
    assert spelled(pitch.pitch_class(theirs), root) == pitch.simplified(theirs)


@given(pitch_classes, pitch_classes)
def test_degree_goes_by_distance_alone(note: int, root: int) -> None:
    assert degree(note, root) == degree(note - root, 0) == degree(note + 12, root)


def test_degree_below_the_root_wraps() -> None:
    assert degree(pitch.pitch_class("Bb"), pitch.pitch_class("C")) == "b7"


def test_minor_pentatonic() -> None:
    """R b3 4 5 b7: common practice, no source."""
    assert [DEGREES[tone] for tone in sorted(MINOR_PENTATONIC)] == ["R", "b3", "4", "5", "b7"]
