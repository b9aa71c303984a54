"""Reproducible noise, the same in every build, for breath and drums."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from formsheet.sound.samples import RATE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_SEED = 20
_SECONDS = 8
_STRIDE = 7919  # offset in samples between the noise of two sounds
_BREATH_BAND = (900.0, 6500.0)  # hertz


def breath(count: int, number: int) -> Samples:
    """Breath noise of `count` samples at root mean square 1; `number` selects the piece."""
    return _piece(band(*_BREATH_BAND), count, number)


@cache
def band(low: float, high: float) -> Samples:
    """Noise between two frequencies (hertz), seamless when looped, at root mean square 1."""
    import numpy as np

    # The legacy generator on purpose: numpy guarantees that its numbers never change.
    white = np.random.RandomState(_SEED).standard_normal(_SECONDS * RATE)
    spectrum = np.fft.rfft(white)
    frequencies = np.fft.rfftfreq(len(white), 1 / RATE)
    rise = np.clip((frequencies - low * 0.7) / (low * 0.3), 0, 1)
    fall = np.clip((high * 1.3 - frequencies) / (high * 0.3), 0, 1)
    noise = np.fft.irfft(spectrum * rise * fall, len(white))
    return np.asarray(noise / np.sqrt(np.mean(noise**2)))


def _piece(noise: Samples, count: int, number: int) -> Samples:
    import numpy as np

    return np.take(noise, np.arange(count) + number * _STRIDE, mode="wrap")
