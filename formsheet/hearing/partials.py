"""Generic spectra of a reed: partials that fall off gently, steadily or steeply."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.spectra import FIRST_BIN, HIGHEST_HERTZ, LAST_BIN, POWER, Floats, bins_of
from formsheet.music.pitch import hertz

#: The n-th partial is divided by n to one of these powers. Our own choice.
SLOPES = (0.5, 1.3, 2.3)
_MOST_PARTIALS = 20
_BLUR_CENTS = 12.0  # partials are this much wider on both sides: vibrato, reeds between two pitches


def templates(cents: NDArray[np.int_]) -> Floats:
    """The spectra of some pitches (cents above MIDI note 0) by slope: each of length 1.

    Pitches by slopes by bins.
    """
    return np.stack([_templates(int(each)) for each in cents])


@lru_cache(maxsize=4096)
def _templates(cents: int) -> Floats:
    rows = np.zeros((len(SLOPES), LAST_BIN - FIRST_BIN))
    lowest = np.array([hertz((cents + blur) / 100) for blur in (-_BLUR_CENTS, 0.0, _BLUR_CENTS)])
    count = max(1, min(_MOST_PARTIALS, int(HIGHEST_HERTZ / lowest[-1])))
    numbers = np.arange(1, count + 1)
    centres = bins_of(np.outer(numbers, lowest))  # partials by blur
    near = np.floor(centres).astype(int)[:, :, None] + np.arange(-2, 4)
    lobes = _lobe(near - centres[:, :, None])
    inside = (near >= 0) & (near < rows.shape[1])
    places = near[inside]
    for row, slope in zip(rows, SLOPES, strict=True):
        strength = np.broadcast_to((numbers**-slope)[:, None, None], near.shape)
        np.maximum.at(row, places, (strength * lobes)[inside])
    rows **= POWER
    return np.asarray(rows / np.linalg.norm(rows, axis=1)[:, None], dtype=np.float32)


def _lobe(off: NDArray[np.float64]) -> NDArray[np.float64]:
    """The main lobe of the Hann window, `off` in bins: 1 at its centre, 0 from 2 bins on."""
    inside = np.abs(off) < 2
    away = np.where(np.isclose(np.abs(off), 1), off + 1e-6, off)
    return np.where(inside, np.abs(np.sinc(away) / (1 - away**2)), 0.0)
