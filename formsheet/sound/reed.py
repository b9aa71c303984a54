"""The guide tone: reeds, made with numpy.

Odd and even partials that fall off gently, none above half the sampling rate; a soft attack that
brightens, and a little breath. The recipe is our own choice. The pitch of a note is exact unless
its technique moves it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from formsheet.music.pitch import hertz
from formsheet.sound.events import Event
from formsheet.sound.motion import (
    Stretch,
    brightness,
    cents,
    loudness,
    sounding,
    stretches,
)
from formsheet.sound.noise import breath
from formsheet.sound.samples import RATE, edges, moments, whole
from formsheet.sound.shapes import shape_of

if TYPE_CHECKING:
    from formsheet.sound.samples import Places, Samples

_TABLE = 4096  # samples of one period
_HIGHEST = 12_000.0  # hertz: the highest partial; leaves room for pitch changes upwards
_MOST_PARTIALS = 40
_DARK_FALL = 2.6  # fall of the partials at brightness 0, as in `Recipe.fall`
_DULL = 0.35  # brightness at the start of a note
_BREATH = 0.012  # breath noise, as a share of the tone
_PUFF = 0.015  # seconds in which the noise at a note's start decays by a factor of e
_TOGETHER = 0.6  # several reeds at once: each is divided by their number to this power
_SEAM = 0.006  # seconds: fades at the changes of hole in a shake
_GOLDEN = 0.381966  # of a period: difference of phase between neighbouring reeds


@dataclass(frozen=True, slots=True)
class Recipe:
    """The parameters of the tone, shared by the clips and the script of the page."""

    even: float = 0.72  # strength of even partials relative to odd ones
    fall: float = 1.2  # the n-th partial is divided by n to this power
    turn: float = _GOLDEN  # radians; times n squared the phase of partial n, to spread the peaks
    opening: float = 0.06  # seconds in which a note becomes bright
    softer: float = 2.0  # decibels an octave by which higher notes are softer: they carry further
    middle: int = 67  # MIDI note that `softer` leaves unchanged


RECIPE = Recipe()


def guide_tone(event: Event, seconds_a_beat: float, number: int) -> Samples:
    """One note at root mean square about 1; `number` selects the piece of breath noise."""
    import numpy as np

    length = sounding(event, seconds_a_beat)
    shape = shape_of(event.technique)
    at = moments(whole(length))
    opening = _DULL + (1 - _DULL) * np.minimum(1.0, at / RECIPE.opening)
    bright = opening * brightness(shape, at, length)
    ratio = 2.0 ** (cents(shape, at, length) / 1200)
    tone = np.zeros(len(at))
    parts = [*stretches(event, seconds_a_beat)]
    for each in parts:
        part = slice(whole(each.start), min(whole(each.start + each.length), len(at)))
        reeds = _reeds(each, ratio[part], bright[part])
        tone[part] = reeds * edges(len(reeds), _SEAM, _SEAM) if len(parts) > 1 else reeds
    tone += breath(len(at), number) * (_BREATH + shape.puff * np.exp(-at / _PUFF))
    moved = tone * loudness(shape, at, length) * edges(len(at), shape.attack, shape.release)
    return np.asarray(event.loudness * moved)


def _reeds(stretch: Stretch, ratio: Samples, bright: Samples) -> Samples:
    """The reeds of one stretch; `ratio` to the written pitch and `bright` (0 to 1), per sample."""
    import numpy as np

    tone = np.zeros(len(ratio))
    turned = np.cumsum(ratio) - ratio[:1]
    for midi in stretch.midi:
        # Reeds start at different phases, so that their peaks do not add up.
        places = ((turned * (hertz(midi) / RATE) + midi * _GOLDEN) % 1) * _TABLE
        below = places.astype(np.intp)
        between = places - below
        falls = (_DARK_FALL, RECIPE.fall)
        dark, full = (_between(_period(midi, fall), below, between) for fall in falls)
        tone += _level(midi) * (dark + bright * (full - dark))
    return np.asarray(tone * len(stretch.midi) ** -_TOGETHER)


def _level(midi: int) -> float:
    return float(10 ** (-RECIPE.softer / 20 * (midi - RECIPE.middle) / 12))


def _between(table: Samples, below: Places, between: Samples) -> Samples:
    """Linear interpolation in the table."""
    low = table[below]
    return low + between * (table[below + 1] - low)


@cache
def _period(midi: int, fall: float) -> Samples:
    """One period of a reed with its first sample repeated at the end, at root mean square 1."""
    import numpy as np

    partials = max(1, min(_MOST_PARTIALS, int(_HIGHEST / hertz(midi))))
    turn = 2 * np.pi * np.arange(_TABLE + 1) / _TABLE
    table = np.zeros(_TABLE + 1)
    for number in range(1, partials + 1):
        strength = (1.0 if number % 2 else RECIPE.even) * number**-fall
        table += strength * np.sin(number * turn + RECIPE.turn * number * number)
    return np.asarray(table / np.sqrt(np.mean(table[:-1] ** 2)))
