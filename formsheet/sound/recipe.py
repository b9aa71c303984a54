"""The recipe of the guide tone: a free reed behind fixed resonances of mouth and hands.

The reed's partials fall off evenly; the resonances do not move with the note, so that the balance
of the partials changes from note to note. Drawing moves them down and makes the reed brighter.
The form of the recipe (source and filter) is common practice in acoustics; its numbers are our own
choice, made by ear and by measuring sampled harmonicas (tests/sound/against_samples.py). The page's
script takes the same recipe.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

from formsheet.music.pitch import hertz
from formsheet.sound.samples import RATE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

HIGHEST = 12_000.0  # hertz: the highest partial
MOST_PARTIALS = 40


@dataclass(frozen=True, slots=True)
class Resonance:
    """A resonance of mouth or hands: a peaking filter (negative decibels: a dip)."""

    hertz: float
    q: float
    decibels: float


@dataclass(frozen=True, slots=True)
class Direction:
    """What the direction of the breath changes."""

    fall: float  # partial n of the reed is divided by n to this power
    moved: float  # the resonances' frequencies are multiplied by this


@dataclass(frozen=True, slots=True)
class Swaying:
    """A slow movement of the breath, which is never quite even."""

    hertz: float
    loudness: float  # amplitude, as a share of the note's loudness


@dataclass(frozen=True, slots=True)
class Recipe:
    """The parameters of the tone."""

    blow: Direction = Direction(fall=1.18, moved=1.12)
    draw: Direction = Direction(fall=1.08, moved=0.92)
    even: float = 0.9  # strength of the reed's even partials relative to its odd ones
    turn: float = 0.381966  # radians; times n squared the phase of partial n: spreads the peaks
    resonances: tuple[Resonance, ...] = (
        Resonance(520, 2.5, 4),
        Resonance(1150, 2.5, -5),
        Resonance(1750, 3, 4),
        Resonance(2900, 0.7, 6),
        Resonance(5200, 2, 6),
    )
    opened: float = 5000.0  # hertz: a lowpass filter over a note at brightness 1,
    closed: float = 420.0  # and at brightness 0
    dull: float = 0.8  # brightness at the start of a note
    opening: float = 0.06  # seconds in which a note becomes bright
    slower: float = 0.35  # octaves of attack time for each octave by which a note is lower
    softer: float = 2.0  # decibels an octave by which higher notes are softer: they carry further
    middle: int = 67  # MIDI note that `slower` and `softer` leave unchanged
    beating: float = 1.0  # cents by which neighbouring reeds of a chord are out, up and down
    swaying: tuple[Swaying, ...] = (Swaying(2.3, 0.055), Swaying(3.7, 0.05), Swaying(5.9, 0.035))
    settling: float = 0.2  # seconds in which the swaying comes in
    #: A bend slides in and lets go: shares of the event's `slide` as (seconds, share), from the
    #: start of the note and from its end.
    slide_in: tuple[tuple[float, float], ...] = ((0.0, 1.0), (0.025, 0.4), (0.05, 0.1), (0.07, 0.0))
    let_go: tuple[tuple[float, float], ...] = ((-0.035, 0.0), (0.0, 0.35))

    def direction(self, draw: bool) -> Direction:
        """What the breath changes; `draw`: drawn, not blown."""
        return self.draw if draw else self.blow


RECIPE = Recipe()


def level(midi: int) -> float:
    """Root mean square of a note relative to that of the middle note."""
    return float(10 ** (-RECIPE.softer / 20 * (midi - RECIPE.middle) / 12))


def partials(midi: int, draw: bool, brightness: float) -> Samples:
    """Amplitudes of the partials from the first; together of root mean square 1 at brightness 1."""
    import numpy as np

    count = max(1, min(MOST_PARTIALS, int(HIGHEST / hertz(midi))))
    number = np.arange(1, count + 1)
    direction = RECIPE.direction(draw)
    at = np.asarray(number * hertz(midi), dtype=np.float64)
    strength = np.where(number % 2, 1.0, RECIPE.even) * number**-direction.fall
    for each in RECIPE.resonances:
        strength *= _peaking(at, each, direction.moved)
    full = strength * _lowpass(at, cutoff(1.0))
    rms = np.sqrt(np.sum(full**2) / 2)
    return np.asarray(strength * _lowpass(at, cutoff(brightness)) / rms)


def cutoff(brightness: float) -> float:
    """Hertz of the lowpass filter over a note at a brightness from 0 to 1."""
    return float(RECIPE.closed * (RECIPE.opened / RECIPE.closed) ** brightness)


def _peaking(at: Samples, resonance: Resonance, moved: float) -> Samples:
    """Gain of a peaking filter at some frequencies.

    The filters are those of the page's audio engine: W3C, "Web Audio API", filters characteristics.
    """
    import numpy as np

    a = 10 ** (resonance.decibels / 40)
    turn = 2 * pi * resonance.hertz * moved / RATE
    alpha = np.sin(turn) / (2 * resonance.q)
    middle = -2 * np.cos(turn)
    return _gain(at, (1 + alpha * a, middle, 1 - alpha * a), (1 + alpha / a, middle, 1 - alpha / a))


def _lowpass(at: Samples, hertz: float) -> Samples:
    """Gain of a lowpass filter without a peak (Q of the page's filter: 0 decibels)."""
    import numpy as np

    turn = 2 * pi * hertz / RATE
    alpha, cosine = np.sin(turn) / 2, np.cos(turn)
    half = (1 - cosine) / 2
    return _gain(at, (half, 2 * half, half), (1 + alpha, -2 * cosine, 1 - alpha))


def _gain(
    at: Samples, above: tuple[float, float, float], below: tuple[float, float, float]
) -> Samples:
    """Gain of a second-order filter with these coefficients."""
    import numpy as np

    z = np.exp(-2j * pi * at / RATE)
    return np.asarray(np.abs(np.polyval(above[::-1], z) / np.polyval(below[::-1], z)))
