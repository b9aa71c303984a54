"""Which degree becomes which, held against a music library's chords."""

from __future__ import annotations

import warnings
from itertools import product
from typing import Any

import pytest

from formsheet.music.chord import Chord, parse_chord
from formsheet.recast.degrees import chord_parts, mapped

CHORDS = ["I7", "IV7", "V7", "I", "IV", "ii7", "ii", "vi7", "i", "iv7", "v", "bVI7", "VI7",
          "IVmaj7", "V+7", "vii7b5", "VIIdim7", "I6"]  # fmt: skip


def symbol_of(chord: Chord) -> Any:
    """The chord in C as the library has it."""
    from music21.harmony import ChordSymbol

    text = chord.name("C").replace("b", "-", 1) if chord.numeral[0] == "b" else chord.name("C")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return ChordSymbol(text.replace("7b5", "7b5"))


def heard(numeral: str) -> dict[str, int]:
    """Its third, fifth and seventh in semitones above the root, by the library."""
    symbol = symbol_of(parse_chord(numeral))
    root = symbol.root().pitchClass
    tones = {"third": symbol.third, "fifth": symbol.fifth, "seventh": symbol.seventh}
    return {kind: (p.pitchClass - root) % 12 for kind, p in tones.items() if p is not None}


@pytest.mark.parametrize("numeral", [c for c in CHORDS if c != "I6"])
def test_parts_of_a_chord(numeral: str) -> None:
    parts = chord_parts(parse_chord(numeral))
    assert parts["root"] == 0
    for kind, distance in heard(numeral).items():
        assert parts[kind] == distance


@pytest.mark.parametrize(("old", "new"), [*product(CHORDS[:6], CHORDS[:12])])
def test_chord_tones_go_to_chord_tones_of_their_kind(old: str, new: str) -> None:
    here, there = heard(old), heard(new)
    for kind in here.keys() & there.keys():
        assert mapped(here[kind], parse_chord(old), parse_chord(new)) == there[kind]
    assert mapped(0, parse_chord(old), parse_chord(new)) == 0


@pytest.mark.parametrize(
    ("distance", "old", "new", "becomes"),
    [
        (3, "I7", "IV7", 3),  # a blue third stays one
        (3, "I7", "iv7", 3),  # and is the third of a minor chord
        (4, "I7", "iv7", 3),
        (3, "i7", "IV7", 4),
        (10, "I7", "IVmaj7", 11),
        (10, "I7", "ii", 10),  # the new chord has no seventh
        (10, "I7", "VI6", 9),
        (7, "I7", "vii7b5", 6),
        (2, "I7", "ii7", 2),
        (5, "I7", "V7", 5),
        (9, "I7", "IV7", 9),
        (6, "I7", "IV7", 6),
    ],
)
def test_by_hand(distance: int, old: str, new: str, becomes: int) -> None:
    """Common practice, no source."""
    assert mapped(distance, parse_chord(old), parse_chord(new)) == becomes
