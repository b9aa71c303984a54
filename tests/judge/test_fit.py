"""Fit: what a note is to a chord, where it lands, and what is said about it.

In second position on a C harp the key is G: I is G7 (G B D F), IV is C7 (C E G Bb), V is D7
(D F# A C). 3 draw is B: the third of I, the major seventh of IV.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.judge.fit import Verdict, tone_verdict
from formsheet.music.chord import parse_chord
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.key import Key
from formsheet.problems.problem import Problem, Severity
from tests.helpers import examined, lesson_text, over, own_form, told

few = settings(max_examples=60, derandomize=True, deadline=None, database=None)

# What each of the twelve notes above a chord's root is, in the order
#      R b9 9 b3 3 4 b5 5 b6 6 b7 7
# C chord tone, b blue note (or the key's own minor pentatonic), c colour, p passing, x clash.
WORD = {
    "C": Verdict.CHORD_TONE,
    "b": Verdict.BLUE_NOTE,
    "c": Verdict.COLOUR,
    "p": Verdict.PASSING,
    "x": Verdict.CLASH,
}
IN_MAJOR = {
    # I, IV and V carry a b7 whether written or not. Blue third and fifth. The key's own minor
    # pentatonic is on I: R b3 4 5 b7; on IV: 5 b7 R 9 4; on V: 4 b6 b7 R b3.
    "I7": "C x c b C b b C x c C x",
    "I": "C x c b C b b C x c C x",
    "IV7": "C x b b C b b C x c C x",
    "IV": "C x b b C b b C x c C x",
    "V7": "C x c b C b b C b c C x",
    "V": "C x c b C b b C b c C x",
    # 9 and 13 are chord tones where they are written.
    "I9": "C x C b C b b C x c C x",
    "V13": "C x c b C b b C b C C x",
    "I6": "C x c b C b b C x C b x",
    "Imaj7": "C x c b C b b C x c b C",
    # VI7: the key's pentatonic is on its b3 5 b6 b7 b9; a 4 is passing.
    "VI7": "C b c b C p b C b c C x",
    # ii7 is minor: its major third clashes. The pentatonic: b7 b9 b3 4 b6.
    "ii7": "C b c C x b b C b c C x",
    # A plain triad elsewhere takes a b7 or a major seventh as colour.
    "II": "C b c b C b b C b c b c"[:0] or "C b c b C b b C b c b c",
}
IN_MINOR = {
    "i7": "C x c C x b b C x c C x",
    "iv7": "C x b C x b b C x c C x",
    # The b9 of V is the sixth of the minor key.
    "V7": "C c c b C b b C b c C x",
    "v7": "C x c C x b b C b c C x",
    # bVI7: the pentatonic is on its 3 5 6 7 9.
    "bVI7": "C x b b C p b C x b C b",
}


@pytest.mark.parametrize(
    ("chord", "minor", "row"),
    [*((c, False, r) for c, r in IN_MAJOR.items()), *((c, True, r) for c, r in IN_MINOR.items())],
)
@pytest.mark.parametrize("tonic", ["C", "G", "F#"])
def test_twelve_notes_over_a_chord(tonic: str, chord: str, minor: bool, row: str) -> None:
    key = Key(tonic, minor)
    root = key.pitch_class + parse_chord(chord).root
    found = [tone_verdict((root + up) % 12, parse_chord(chord), key) for up in range(12)]
    assert found == [WORD[letter] for letter in row.split()]
