"""The key of a blues: which key's twelve bars the notes go with.

For each key and each twelve-bar form the probability of the melody is worked out: each note is
drawn from the tones of the chord that sounds and from the blues scale of the key. It is compared
with the probability that the note profile of a major or minor key gives the same notes
(`keyfinding.py`). The weights are our own choice, fitted to nothing; that both thirds and the b7
of a key, and its I7, IV7 and V7, speak for it is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.music.chord import Chord
from formsheet.music.form import FORMS, Form, FormBar
from formsheet.music.key import Key, key_of_signature
from formsheet.notes.melody import Tone

#: The forms that are tried.
_TRIED = ("12-bar standard", "12-bar quick-change", "12-bar long five", "12-bar minor")
_BARS = 12
_MOST_CHORUSES = 3  # more bars than that are those of a dance tune
#: Shares of a note: a tone of the chord, a note of the key's blues scale, any note.
_OF_CHORD, _OF_SCALE, _OF_ANY = 0.45, 0.5, 0.05
#: Weights of the tones of a chord: root, third, fifth, others.
_ROOT, _TONE, _OTHER = 3.0, 2.0, 1.5
#: Weights of the notes of the scale, by half steps above the key note; the minor one has no 3.
_SCALE = {0: 4.0, 3: 2.0, 4: 1.5, 5: 1.2, 6: 0.5, 7: 2.0, 9: 0.7, 10: 2.0, 2: 0.5}
_MINOR_SCALE = {0: 3.0, 3: 2.5, 5: 1.5, 6: 0.5, 7: 2.0, 10: 2.0, 2: 0.5, 8: 0.5}
#: Half steps above the key note of the minor pentatonic with the blue fifth. Twelve bars of nothing
#: else are a blues in its key, and not in the major key with the same notes: how much that speaks
#: for it, as a logarithm.
_PENTATONIC = frozenset({0, 3, 5, 6, 7, 10})
_TOLD_BY = frozenset({0, 3, 7, 10})
_TOLD = 8.0
#: A long note counts as this many quarters at most.
_LONGEST = 2.0
#: Ending on the key note, or on the root of V that leads back, as a factor.
_ENDS_HOME, _ENDS_AWAY = 3.0, 1.3
#: How much rarer the minor form is than those with sevenths, as a logarithm.
_MINOR_IS_RARER = 4.0

Weights = Mapping[int, float]


class BluesKey(NamedTuple):
    """A key, a form, and how likely the notes are in it (a logarithm)."""

    key: Key
    form: Form
    likely: float


def blues_keys(tones: Sequence[Tone], bar: Fraction) -> list[BluesKey]:
    """Each key with its best form, likeliest first; none unless the melody is one to three choruses
    of twelve bars.
    """
    bars = -int(-tones[-1].end // bar)
    if not bars or bars % _BARS or bars > _MOST_CHORUSES * _BARS:
        return []
    placed = [_placed(tone, bar) for tone in tones]
    found = []
    for tonic in range(12):
        forms = [FORMS[name] for name in _TRIED]
        tried = [
            (_likely(placed, tonic, form) - _MINOR_IS_RARER * form.minor, form) for form in forms
        ]
        likely, form = max(tried, key=lambda pair: pair[0])
        found.append(BluesKey(_key(tonic, form.minor), form, likely))
    return sorted(found, key=lambda each: -each.likely)


def weight(tone: Tone) -> float:
    """How much a note counts, in quarters."""
    return min(float(tone.end - tone.start), _LONGEST)


class _Placed(NamedTuple):
    """A note in its chorus."""

    midi: tuple[int, ...]
    bar: int  # of the chorus, from 0
    part: float  # of the bar
    weight: float  # of each of its pitches, in quarters


def _placed(tone: Tone, bar: Fraction) -> _Placed:
    number, at = divmod(max(tone.start, Fraction(0)), bar)
    return _Placed(tone.midi, int(number) % _BARS, float(at / bar), weight(tone) / len(tone.midi))


def _likely(placed: Sequence[_Placed], tonic: int, form: Form) -> float:
    total = 0.0
    for tone in placed:
        chords = form.bars[tone.bar]
        shares = _shares(chords[int(tone.part * len(chords))], form.minor)
        for midi in tone.midi:
            total += tone.weight * shares[(midi - tonic) % 12]
    steps = {(midi - tonic) % 12 for tone in placed for midi in tone.midi}
    if _TOLD_BY <= steps <= _PENTATONIC:
        total += _TOLD
    last = (placed[-1].midi[0] - tonic) % 12
    return total + math.log({0: _ENDS_HOME, 7: _ENDS_AWAY}.get(last, 1.0))


_KNOWN: dict[tuple[Chord, bool], list[float]] = {}


def _shares(chord: Chord, minor: bool) -> list[float]:
    """The logarithm of the probability of each note, by half steps above the key note."""
    known = _KNOWN.get((chord, minor))
    if known is None:
        tones = {
            (chord.root + tone) % 12: _ROOT if not tone else _TONE if tone in (3, 4, 7) else _OTHER
            for tone in chord.tones
        }
        scale = _MINOR_SCALE if minor else _SCALE
        known = [
            math.log(_OF_CHORD * _part(tones, step) + _OF_SCALE * _part(scale, step) + _OF_ANY / 12)
            for step in range(12)
        ]
        _KNOWN[chord, minor] = known
    return known


def _part(weights: Weights, step: int) -> float:
    return weights.get(step, 0.0) / sum(weights.values())


def _key(tonic: int, minor: bool) -> Key:
    """The key on a pitch class whose signature has the fewest accidentals."""
    return next(
        key
        for sharps in range(-5, 7)
        if (key := key_of_signature(sharps, minor)).pitch_class == tonic
    )


def is_blues_form(bars: Sequence[FormBar]) -> bool:
    """Whether chords are those of a blues: I and IV with sevenths, or i7 and iv7."""
    chords = {chord for bar in bars for chord in bar}
    sevenths = {chord.root for chord in chords if 10 in chord.tones}
    return {0, 5} <= sevenths and all(chord.root in (0, 2, 5, 7, 8, 9) for chord in chords)
