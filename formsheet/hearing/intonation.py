"""How a recording is tuned, and where in it a note sits: cents."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.actions import HIGHEST, LOWEST
from formsheet.hearing.evidence import STEP_CENTS, Residuals
from formsheet.hearing.spectra import Floats, Spectra

_EVERY = 3  # spectra: tuning needs no more
_CLEAR = 0.5  # residual of a spectrum that has a pitch
_WIDTH = 8.0  # cents: of the bell with which pitches are gathered
_USUAL = 25.0  # cents: most harps are tuned as near to A = 440
_SEMITONE = 100  # cents
_MOST_FRAMES = 4000


def tuning_of(heard: Spectra) -> float:
    """Cents above A4 = 440 Hz to which a recording is tuned, -50 to 50; 0 if nothing is clear."""
    loud = np.flatnonzero(heard.loudness > 0.5)[::_EVERY][:_MOST_FRAMES]
    if not len(loud):
        return 0.0
    residuals = Residuals(heard.rows[loud], LOWEST, HIGHEST, 0.0)
    cents, left = finest(residuals.values, residuals.first)
    clear = left < _CLEAR
    if not clear.any():
        return 0.0
    weights = _CLEAR - left[clear]
    off = cents[clear] % _SEMITONE
    tried = np.arange(-50, 50, 1.0)
    away = (off[None, :] - tried[:, None] + 50) % _SEMITONE - 50
    heaps = (np.exp(-0.5 * (away / _WIDTH) ** 2) * weights).sum(axis=1)
    heaps *= np.exp(-0.5 * (tried / _USUAL) ** 2)
    return float(tried[int(np.argmax(heaps))])


def finest(values: Floats, first: int) -> tuple[NDArray[Any], NDArray[Any]]:
    """The best pitch in cents of each row of residuals, between the steps; and its residual."""
    at = np.clip(values.argmin(axis=1), 1, values.shape[1] - 2)
    rows = np.arange(len(values))
    below, here, above = (values[rows, at + step] for step in (-1, 0, 1))
    bow = below - 2 * here + above
    shift = np.where(bow > 1e-6, 0.5 * (below - above) / np.maximum(bow, 1e-6), 0.0)
    return first + (at + np.clip(shift, -1, 1)) * STEP_CENTS, here


def cents_off(residuals: Residuals, midi: int, first: int, last: int) -> float | None:
    """Cents by which a note lies above its pitch in the middle of some rows; None if unclear.

    Rows are those of the spectra; the recording's own tuning is left out of it.
    """
    third = (last - first) // 3
    rows = slice(first + third, max(last - third // 2, first + third + 1))
    centre = residuals.column(midi)
    reach = 4  # steps: a semitone
    low = max(0, centre - reach)
    part = residuals.values[rows, low : centre + reach + 1]
    if not len(part):
        return None
    cents, left = finest(part, residuals.first + low * STEP_CENTS)
    clear = left < _CLEAR
    if not clear.any():
        return None
    return float(np.median(cents[clear])) - midi * 100 + residuals.beside
