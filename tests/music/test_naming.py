"""Names of intervals and chords, against a general music library's identification."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from music21.chord import Chord as OutsideChord
from music21.harmony import ChordSymbol
from music21.interval import Interval
from music21.key import Key
from music21.pitch import Pitch

from formsheet.judge.harmony import blocks
from formsheet.music.degree import degree
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.key import song_key
from formsheet.music.naming import CHORD_KINDS, chord_kind, interval_name
from formsheet.music.tab import Breath, Tab

#: Our name of a kind -> what the outside library calls it.
OUTSIDE_KINDS = {
    "": "major triad",
    "m": "minor triad",
    "7": "dominant seventh chord",
    "m7": "minor seventh chord",
    "dim": "diminished triad",
    "maj7": "major seventh chord",
    "m7b5": "half-diminished seventh chord",
    "dim7": "diminished seventh chord",
    "+": "augmented triad",
}
#: Kinds whose root the library finds by spelling, or that have two: MIDI numbers do not tell.
ROOT_UNSURE = ("m7", "m7b5", "dim", "dim7", "+")


def named_blocks(key: str) -> Iterator[tuple[Tab, tuple[int, ...]]]:
    harp = Harp(key)
    for size in (3, 4):
        for tab in blocks(size):
            yield tab, harp.pitches(tab)


@pytest.mark.parametrize("key", HARP_KEYS)
def test_every_block_of_three_and_four_holes_is_named_as_the_library_names_it(key: str) -> None:
    named = 0
    for tab, midi in named_blocks(key):
        found, outside = chord_kind(midi), OutsideChord(list(midi))
        if found is None or found[1] not in OUTSIDE_KINDS:
            continue
        named += 1
        root, kind = found
        common = outside.commonName.removeprefix("enharmonic equivalent to ")
        assert (str(tab), common) == (str(tab), OUTSIDE_KINDS[kind])
        if kind not in ROOT_UNSURE:
            assert outside.root().pitchClass == root
    assert named >= 20


def test_blocks_without_a_name_are_none_of_our_kinds() -> None:
    for _, midi in named_blocks("C"):
        if chord_kind(midi) is None:
            assert OutsideChord(list(midi)).commonName not in OUTSIDE_KINDS.values()


@pytest.mark.parametrize("kind", [kind for kind in CHORD_KINDS if kind in OUTSIDE_KINDS])
def test_kinds_have_the_tones_that_the_library_gives_them(kind: str) -> None:
    outside = OutsideChord([60 + tone for tone in CHORD_KINDS[kind]])
    assert outside.commonName == OUTSIDE_KINDS[kind]


@pytest.mark.parametrize("kind", ["7", "maj7", "6", "m6", "sus4", "9", "m9", "add9"])
def test_kinds_have_the_tones_of_the_librarys_chord_symbol(kind: str) -> None:
    outside = {pitch.pitchClass for pitch in ChordSymbol(f"C{kind}").pitches}
    assert outside == CHORD_KINDS[kind]


#: Our interval names -> the library's, simple intervals only.
OUTSIDE_INTERVALS = {
    "octave": "Perfect Octave",
    "minor second": "Minor Second",
    "second": "Major Second",
    "minor third": "Minor Third",
    "third": "Major Third",
    "fourth": "Perfect Fourth",
    "tritone": "Diminished Fifth",
    "fifth": "Perfect Fifth",
    "minor sixth": "Minor Sixth",
    "sixth": "Major Sixth",
    "minor seventh": "Minor Seventh",
    "major seventh": "Major Seventh",
}


@pytest.mark.parametrize("semitones", range(1, 13))
def test_intervals_are_named_as_the_library_names_them(semitones: int) -> None:
    outside = Interval(semitones).niceName
    assert OUTSIDE_INTERVALS[interval_name(60, 60 + semitones)] == outside


@pytest.mark.parametrize("low", [48, 55, 60])
def test_an_octave_is_the_same_name_twice(low: int) -> None:
    assert interval_name(low, low + 12) == "octave"
    assert Pitch(midi=low).name == Pitch(midi=low + 12).name


#: The library's name of a simple interval above the key note -> our degree.
DEGREES = {
    "P1": "R",
    "m2": "b9",
    "M2": "9",
    "m3": "b3",
    "M3": "3",
    "P4": "4",
    "A4": "b5",
    "d5": "b5",
    "P5": "5",
    "m6": "b6",
    "M6": "6",
    "m7": "b7",
    "M7": "7",
}


@cache
def outside_degree(tonic: int, note: int) -> str:
    return DEGREES[Interval((note - tonic) % 12).simpleName.replace("P8", "P1")]


@pytest.mark.parametrize("position", [1, 2, 3, 4, 5, 12])
@pytest.mark.parametrize("key", HARP_KEYS)
def test_degrees_of_all_blocks_are_the_librarys_intervals(key: str, position: int) -> None:
    harp, tonic = Harp(key), song_key(key, position).pitch_class
    outside = Key(key.replace("b", "-"))
    moved = (outside.tonic.pitchClass + 7 * (position - 1)) % 12
    assert tonic == moved
    for low in range(1, 9):  # 1-3 to 8-10
        for breath in Breath:
            for midi in harp.pitches(Tab((low, low + 1, low + 2), breath)):
                assert degree(midi % 12, tonic) == outside_degree(moved, midi)
