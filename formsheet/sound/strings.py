"""The pitched sounds of the band, made with numpy: a plucked bass and a soft keyboard.

The recipes are our own choice. Each sound is computed once and cached.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import ceil, log2
from typing import TYPE_CHECKING

from formsheet.music.pitch import hertz
from formsheet.sound.samples import edges, moments

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_SPREAD = 1.2  # radians; times n squared the phase of partial n: lowers the peaks
_DAMPED = 0.04  # seconds of the fade at the end of a note


@dataclass(frozen=True)
class String:
    """Decaying partials; higher ones decay faster."""

    partials: tuple[float, ...]  # strengths, from the first
    fading: float  # decay rate of the first partial, per second (a factor of e)
    faster: float  # added to the rate for each further partial
    attack: float  # seconds


BASS = String((0.7, 0.5, 0.33, 0.2, 0.14, 0.09, 0.06), fading=2.4, faster=1.1, attack=0.004)
KEYS = String((0.6, 0.22, 0.13, 0.04), fading=1.6, faster=0.9, attack=0.012)


def rung(string: String, notes: tuple[int, ...], count: int) -> Samples:
    """Notes (MIDI numbers) sounding together for `count` samples, faded at the end."""
    import numpy as np

    sound = np.zeros(count)
    for midi in notes:
        sound += _ringing(string, midi, _enough(count))[:count]
    return sound * edges(count, 0.0, _DAMPED)


def _enough(count: int) -> int:
    """The next power of two, so that notes of similar length share a cached sound."""
    return int(2 ** ceil(log2(max(count, 1))))


@cache
def _ringing(string: String, midi: int, count: int) -> Samples:
    import numpy as np

    at = moments(count)
    tone = np.zeros(count)
    for number, strength in enumerate(string.partials, start=1):
        fading = string.fading + string.faster * (number - 1)
        tone += (
            strength
            * np.exp(-at * fading)
            * np.sin(2 * np.pi * number * hertz(midi) * at + _SPREAD * number * number)
        )
    return np.asarray(tone * edges(count, string.attack, 0.0))
