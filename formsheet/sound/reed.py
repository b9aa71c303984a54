"""The guide tone: reeds, by numpy.

A tone like a reed's, odd and even partials falling off gently, none above half the sampling
rate; a soft attack that brightens, a little breath. The recipe is our own. A note's pitch is
exact but where its technique moves it.
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

_TABLE = 4096  # places of one period
_HIGHEST = 12_000.0  # hertz: partials above this are left out; room for every bend above it
_MOST_PARTIALS = 40
_DARK_FALL = 2.6  # the fall of the partials where the tone is dark
_DULL = 0.35  # how bright it is at its start
_BREATH = 0.012  # of the tone
_PUFF = 0.015  # seconds in which the noise at a note's start goes to a third
_TOGETHER = 0.6  # several reeds at once: each is softer by their number to this power
_SEAM = 0.006  # seconds: the edges of a shake's turns
_GOLDEN = 0.381966  # of a turn, from one reed's start to the next one's


@dataclass(frozen=True, slots=True)
class Recipe:
    """What the clips and the page's script alike make the tone of."""

    even: float = 0.72  # strength of an even partial beside an odd one
    fall: float = 1.2  # the n-th partial falls by n to this power
    turn: float = _GOLDEN  # radians, times n squared: partials' phases, so that peaks do not add up
    opening: float = 0.06  # seconds in which a note grows bright
    softer: float = 2.0  # decibels an octave: higher notes carry further
    middle: int = 67  # MIDI: the note that this leaves as it is


RECIPE = Recipe()


def guide_tone(event: Event, seconds_a_beat: float, number: int) -> Samples:
    """One note, at root mean square about 1; `number` tells which breath it takes."""
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
    """The reeds of one stretch; `ratio` to the written pitch, and how bright, sample by sample."""
    import numpy as np

    tone = np.zeros(len(ratio))
    turned = np.cumsum(ratio) - ratio[:1]
    for midi in stretch.midi:
        # Reeds start at different places of their periods, so that their peaks do not add up.
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
    """The table read between its places, on a straight line."""
    low = table[below]
    return low + between * (table[below + 1] - low)


@cache
def _period(midi: int, fall: float) -> Samples:
    """One period of a reed, and its first place once more, at root mean square 1."""
    import numpy as np

    partials = max(1, min(_MOST_PARTIALS, int(_HIGHEST / hertz(midi))))
    turn = 2 * np.pi * np.arange(_TABLE + 1) / _TABLE
    table = np.zeros(_TABLE + 1)
    for number in range(1, partials + 1):
        strength = (1.0 if number % 2 else RECIPE.even) * number**-fall
        table += strength * np.sin(number * turn + RECIPE.turn * number * number)
    return np.asarray(table / np.sqrt(np.mean(table[:-1] ** 2)))
