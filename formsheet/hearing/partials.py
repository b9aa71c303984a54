"""Generic spectra of a reed: partials that fall off gently, steadily or steeply."""

from __future__ import annotations

from functools import cache

import numpy as np

from formsheet.hearing.spectra import FIRST_BIN, HIGHEST_HERTZ, LAST_BIN, POWER, Floats, bins_of
from formsheet.music.pitch import hertz

#: The n-th partial is divided by n to one of these powers. Our own choice.
SLOPES = (0.5, 1.3, 2.3)
_MOST_PARTIALS = 20
_BLUR_CENTS = 12.0  # partials are this much wider on both sides: vibrato, reeds between two pitches


@cache
def template(cents: int, slope: float) -> Floats:
    """The spectrum of a note of so many cents above MIDI note 0, of length 1."""
    bins = np.arange(LAST_BIN - FIRST_BIN)
    row = np.zeros(len(bins))
    for blur in (-_BLUR_CENTS, 0.0, _BLUR_CENTS):
        lowest = hertz((cents + blur) / 100)
        count = max(1, min(_MOST_PARTIALS, int(HIGHEST_HERTZ / lowest)))
        numbers = np.arange(1, count + 1)
        centres = bins_of(numbers * lowest)
        for number, centre in zip(numbers, centres, strict=True):
            first = max(0, int(centre) - 2)
            near = bins[first : int(centre) + 4]
            row[near] = np.maximum(row[near], float(number) ** -slope * _lobe(near - centre))
    row = row**POWER
    return np.asarray(row / np.linalg.norm(row), dtype=np.float32)


def _lobe(off: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    """The main lobe of the Hann window, `off` in bins: 1 at its centre, 0 from 2 bins on."""
    inside = np.abs(off) < 2
    away = np.where(np.isclose(np.abs(off), 1), off + 1e-6, off)
    return np.where(inside, np.abs(np.sinc(away) / (1 - away**2)), 0.0)
