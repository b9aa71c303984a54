"""Find the key of a melody by the Krumhansl-Schmuckler method.

The time that each of the twelve pitch classes sounds is correlated with a profile: how often each
class occurs in a major or minor key. The method is Krumhansl's (Cognitive Foundations of Musical
Pitch, 1990, chapter 4), the profiles are Temperley's from the Kostka-Payne corpus (Music and
Probability, 2007, chapter 6). Over the 999 open melodies of the tests these profiles find the
written key in 89 %, the listeners' ratings of Krumhansl and Kessler (1982) in 85 %; from the first
four bars of a sample of 125, in 84 % and 77 %.

The profiles have no blue notes. So a melody that has only notes of a blues scale and ends on its
key note is recognised first, by its notes, and so is one of twelve bars (or twice twelve, ...) that
goes with the chords of a blues better than with any profile (`blueskey.py`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from statistics import correlation
from typing import NamedTuple

from formsheet.music.form import Form
from formsheet.music.key import Key, key_of_signature
from formsheet.notes.blueskey import BluesKey, blues_keys, weight
from formsheet.notes.melody import Tone

#: The share of segments of music in which a pitch class occurs, from the key note up.
MAJOR = (0.748, 0.060, 0.488, 0.082, 0.670, 0.460, 0.096, 0.715, 0.104, 0.366, 0.057, 0.400)
MINOR = (0.712, 0.084, 0.474, 0.618, 0.049, 0.460, 0.105, 0.747, 0.404, 0.067, 0.133, 0.330)

#: Half steps above the key note: the minor pentatonic and the blue fifth, which distinguishes the
#: blues scale from other scales. Common practice, no source.
_BLUES_SCALE = frozenset({0, 3, 5, 6, 7, 10})
_TELLING = frozenset({0, 3, 6})
#: Other notes that a blues melody may have: the ninth, the major third, the sixth.
_BESIDE = frozenset({2, 4, 9})

_SIGNATURES = range(-5, 7)  # five flats to six sharps
_KEYS = tuple(key_of_signature(sharps, minor) for sharps in _SIGNATURES for minor in (False, True))

#: How much likelier the notes must be as a blues than by a profile, as a logarithm for each quarter
#: that sounds. Below 0, since twelve bars speak for a blues themselves. Our own choice.
_CLEARLY_BLUES = -0.12


class KeysFound(NamedTuple):
    """The key that fits best, the one that fits next best, and the form if it is a blues."""

    best: Key
    second: Key
    form: Form | None = None
    blues: bool = False


def sounding_time(tones: Sequence[Tone]) -> list[float]:
    """The time in quarters that each pitch class sounds, C first."""
    times = [0.0] * 12
    for tone in tones:
        for midi in tone.midi:
            times[midi % 12] += float(tone.end - tone.start)
    return times


def found_key(tones: Sequence[Tone], signature: int | None = None) -> Key:
    """The key that fits best; with a `signature` (sharps, flats negative) the better of its two."""
    times = sounding_time(tones)
    blues = _blues_key(tones)
    if blues and signature is None:
        return blues
    keys = [key for key in _KEYS if signature is None or key.signature == signature] or _KEYS
    return max(keys, key=lambda key: _fit(times, key))


def found_keys(
    tones: Sequence[Tone], signature: int | None = None, bar: Fraction | None = None
) -> KeysFound:
    """The two keys that fit best; `bar` is the length of a bar in quarters, if it is known."""
    times = sounding_time(tones)
    keys = sorted(_KEYS, key=lambda key: -_fit(times, key))
    blues = blues_keys(tones, bar) if bar else []
    if blues and _is_blues(tones, blues[0]):
        best = blues[0]
        after = [each.key for each in blues[1:2]] + keys
        second = next(key for key in after if key.pitch_class != best.key.pitch_class)
        return KeysFound(best.key, second, best.form, True)
    key = found_key(tones, signature)
    by_scale = signature is None and _blues_key(tones) == key
    second = next(each for each in keys if each != key)
    return KeysFound(key, second, None, by_scale)


def _is_blues(tones: Sequence[Tone], found: BluesKey) -> bool:
    """Whether the notes are likelier as a blues than in any key by its profile."""
    total = sum(map(weight, tones))
    best = max(_likely(tones, key) for key in _KEYS)
    return found.likely - best > _CLEARLY_BLUES * total


def _likely(tones: Sequence[Tone], key: Key) -> float:
    profile = MINOR if key.minor else MAJOR
    whole = sum(profile)
    return sum(
        weight(tone) / len(tone.midi) * math.log(profile[(midi - key.pitch_class) % 12] / whole)
        for tone in tones
        for midi in tone.midi
    )


def _blues_key(tones: Sequence[Tone]) -> Key | None:
    """The key of a melody in a blues scale that ends on its key note; None for any other."""
    if not tones:
        return None
    home = tones[-1].midi[0] % 12
    steps = {(midi - home) % 12 for tone in tones for midi in tone.midi}
    if not _TELLING <= steps <= _BLUES_SCALE | _BESIDE:
        return None
    major = 4 in steps
    return next(key for key in _KEYS if key.pitch_class == home and key.minor is not major)


def _fit(times: Sequence[float], key: Key) -> float:
    turned = [times[(key.pitch_class + step) % 12] for step in range(12)]
    if len(set(turned)) == 1:
        return 0.0  # all twelve equal: every key fits equally well
    return correlation(turned, MINOR if key.minor else MAJOR)
