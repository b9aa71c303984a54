"""Which key a melody is in: Krumhansl and Schmuckler's method.

The time that each of the twelve pitch classes sounds is correlated with how well each fits a major
and a minor key, as listeners rated it: Krumhansl and Kessler, Psychological Review 89 (1982) 334;
Krumhansl, Cognitive Foundations of Musical Pitch (1990), table 2.1 and chapter 4.
"""

from __future__ import annotations

from collections.abc import Sequence
from statistics import correlation

from formsheet.music import pitch
from formsheet.music.key import Key
from formsheet.notes.melody import Tone

#: Ratings of the pitch classes, from the key note up.
MAJOR = (6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88)
MINOR = (6.33, 2.68, 3.52, 5.38, 2.60, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17)

_PLACES = range(-5, 7)  # on the line of fifths: five flats to six sharps
_RELATIVE = 3  # a minor key has the signature of the major key 3 fifths below it
_KEYS = tuple(
    Key(pitch.name_at_fifths(place + (_RELATIVE if minor else 0)), minor)
    for place in _PLACES
    for minor in (False, True)
)


def sounding_time(tones: Sequence[Tone]) -> list[float]:
    """Quarters that each pitch class sounds, C first."""
    times = [0.0] * 12
    for tone in tones:
        for midi in tone.midi:
            times[midi % 12] += float(tone.end - tone.start)
    return times


def found_key(tones: Sequence[Tone], signature: int | None = None) -> Key:
    """The key that fits best; with a signature, the better of its two."""
    times = sounding_time(tones)
    keys = [key for key in _KEYS if signature is None or _sharps(key) == signature] or _KEYS
    return max(keys, key=lambda key: _fit(times, key))


def _sharps(key: Key) -> int:
    return pitch.fifths(key.tonic) - (_RELATIVE if key.minor else 0)


def _fit(times: Sequence[float], key: Key) -> float:
    turned = [times[(key.pitch_class + step) % 12] for step in range(12)]
    if len(set(turned)) == 1:
        return 0.0  # all twelve alike: no key fits better than another
    return correlation(turned, MINOR if key.minor else MAJOR)
