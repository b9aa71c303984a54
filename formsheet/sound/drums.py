"""Drums and the wood block of the count, made with numpy: decaying tones and a band of noise.

The recipes are our own choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from formsheet.sound.count_in import ACCENT, CLICK
from formsheet.sound.grooves import CRASH, HAT, KICK, RIDE, SNARE, STICK
from formsheet.sound.noise import band
from formsheet.sound.samples import edges, moments, whole

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_ATTACK, _END = 0.0012, 0.01  # seconds


@dataclass(frozen=True, slots=True)
class Tone:
    """A decaying tone; it may start above its pitch and fall to it."""

    hertz: float
    strength: float
    fading: float  # seconds in which it decays by a factor of e
    above: float = 0.0  # hertz above its pitch at the start
    falling: float = 0.02  # seconds in which `above` decays by a factor of e


@dataclass(frozen=True, slots=True)
class Noise:
    """Decaying noise between two frequencies."""

    low: float  # hertz
    high: float
    strength: float
    fading: float  # seconds to a third


@dataclass(frozen=True, slots=True)
class Drum:
    """The components of a drum, and how long it rings."""

    seconds: float
    noise: Noise
    tones: tuple[Tone, ...] = ()


#: By General MIDI percussion number.
DRUMS: dict[int, Drum] = {
    KICK: Drum(0.35, Noise(900, 3500, 0.06, 0.004), (Tone(52, 1.0, 0.085, above=85),)),
    SNARE: Drum(
        0.3,
        Noise(1400, 9000, 0.22, 0.06),
        (Tone(186, 0.45, 0.05, above=40), Tone(331, 0.2, 0.03)),
    ),
    STICK: Drum(
        0.1, Noise(2500, 8000, 0.1, 0.008), (Tone(1720, 0.3, 0.012), Tone(820, 0.25, 0.016))
    ),
    HAT: Drum(0.14, Noise(7000, 15000, 0.22, 0.022)),
    RIDE: Drum(
        0.8,
        Noise(5500, 14000, 0.09, 0.12),
        (Tone(3170, 0.05, 0.22), Tone(4410, 0.05, 0.2), Tone(5730, 0.04, 0.18)),
    ),
    CRASH: Drum(2.0, Noise(3500, 15000, 0.2, 0.45), (Tone(2890, 0.03, 0.3),)),
    ACCENT: Drum(
        0.1, Noise(2500, 6000, 0.05, 0.003), (Tone(1975, 0.8, 0.016), Tone(3160, 0.3, 0.008))
    ),
    CLICK: Drum(
        0.1, Noise(2500, 6000, 0.05, 0.003), (Tone(1318, 0.8, 0.016), Tone(2110, 0.3, 0.008))
    ),
}


@cache
def struck(number: int) -> Samples:
    """The sound of a drum by its General MIDI percussion number, at full loudness."""
    import numpy as np

    drum = DRUMS[number]
    at = moments(whole(drum.seconds))
    noise = drum.noise
    sound = noise.strength * np.exp(-at / noise.fading) * band(noise.low, noise.high)[: len(at)]
    for tone in drum.tones:
        fallen = tone.above * tone.falling * (1 - np.exp(-at / tone.falling))
        turns = tone.hertz * at + fallen
        sound += tone.strength * np.exp(-at / tone.fading) * np.sin(2 * np.pi * turns)
    envelope = edges(len(at), _ATTACK, _END)
    sound *= envelope
    return np.asarray(sound - envelope * (sound.sum() / envelope.sum()))  # removes the offset
