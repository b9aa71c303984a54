"""Twelve-bars composed at random over their chords, for tests of the key.

Three kinds: both thirds of each chord with its other tones, the minor pentatonic of the key, and
arpeggios of the chords. All from a seed; none is a tune of anybody.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from random import Random
from typing import NamedTuple

from formsheet.music.chord import Chord
from formsheet.music.form import FORMS
from formsheet.notes.melody import Tone

KINDS = ("mixed thirds", "minor pentatonic", "arpeggios")
_FORMS = ("12-bar standard", "12-bar quick-change", "12-bar long five")
_RHYTHMS = ((1, 1, 1, 1), (1, 1, 2), (2, 1, 1), (0.5, 0.5, 1, 1, 1), (1, 0.5, 0.5, 2),
            (0.5, 0.5, 0.5, 0.5, 1, 1), (3, 1), (2, 2), (1, 0.5, 0.5, 1, 1))  # fmt: skip
_PENTATONIC = (0, 3, 5, 7, 10)


class TwelveBar(NamedTuple):
    """A melody, and the pitch class of the key that it was composed in."""

    kind: str
    tonic: int
    form: str
    tones: tuple[Tone, ...]


def twelve_bar(seed: int) -> TwelveBar:
    """The twelve-bar of a seed; the kinds take turns."""
    random = Random(seed)
    kind = KINDS[seed % len(KINDS)]
    tonic, form = random.randrange(12), random.choice(_FORMS)
    last = 60 + tonic + random.choice((-5, 0, 3, 4, 7))
    tones = []
    for number, chords in enumerate(FORMS[form].bars):
        at = Fraction(4 * number)
        for length in random.choice(_RHYTHMS):
            end = at + Fraction(length)
            if random.random() > 0.12:
                allowed = [
                    midi for midi in range(55, 83) if (midi - tonic) % 12 in _steps(kind, chords[0])
                ]
                near = sorted(allowed, key=lambda midi: abs(midi - last))[:6]
                last = random.choice(near)
                tones.append(Tone((last,), at, end))
            at = end
    if tones[-1].end <= 44:  # the last bar is not silent
        tones.append(Tone((60 + tonic,), Fraction(44), Fraction(46)))
    return TwelveBar(kind, tonic, form, tuple(tones))


def _steps(kind: str, chord: Chord) -> set[int]:
    """Half steps above the key note that a note may have."""
    if kind == "minor pentatonic":
        return set(_PENTATONIC)
    over = {0, 3, 4, 7, 9, 10} if kind == "mixed thirds" else set(chord.tones)
    return {(chord.root + step) % 12 for step in over}


def twelve_bars(count: int, first: int = 0) -> Iterator[TwelveBar]:
    """Some of them."""
    return (twelve_bar(seed) for seed in range(first, first + count))
