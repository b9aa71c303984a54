"""Peaks: held under a ceiling by turning the level down around each, for a few milliseconds.

A true peak is one of the wave between the samples: ITU-R BS.1770-5, annex 2.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from formsheet.sound.samples import RATE

if TYPE_CHECKING:
    from formsheet.sound.samples import Places, Samples

_PIECE = RATE // 1000  # samples: the level is turned down in steps this long, then smoothed
_AROUND = 4  # pieces before and after a peak over which the level goes down and up
_REACH = 24  # samples on each side from which the wave between two is reckoned
_BETWEEN = 4  # places looked at for each sample


def peaks(samples: Samples) -> Samples:
    """The true peak of each millisecond of the samples."""
    import numpy as np

    count = -(-len(samples) // _PIECE)
    padded = np.zeros(count * _PIECE)
    padded[: len(samples)] = np.abs(samples)
    found = padded.reshape(count, _PIECE).max(axis=1)
    # Between the samples of music the wave rises no more than a third above them.
    near = np.flatnonzero(found > 0.75 * found.max(initial=0.0))
    if len(near):
        found[near] = np.maximum(found[near], _between(samples, near))
    return np.asarray(found)


def _between(samples: Samples, pieces: Places) -> Samples:
    """The highest value between the samples of some pieces (indices)."""
    import numpy as np

    padded = np.concatenate([np.zeros(_REACH), samples, np.zeros(_REACH + _PIECE)])
    places = (pieces[:, None] * _PIECE + np.arange(_PIECE + 2 * _REACH)).astype(np.intp)
    windows = np.lib.stride_tricks.sliding_window_view(padded[places], 2 * _REACH, axis=1)
    return np.asarray(np.abs(windows @ _kernels()).max(axis=(1, 2)))


@cache
def _kernels() -> Samples:
    """Windowed sines that give the wave at three places between two samples."""
    import numpy as np

    at = np.arange(-_REACH, _REACH) + 1
    shares = np.arange(1, _BETWEEN) / _BETWEEN
    away = shares[None, :] - at[:, None]
    window = np.cos(np.pi * away / (2 * _REACH + 2)) ** 2
    return np.asarray(np.sinc(away) * window)


def limited(samples: Samples, found: Samples, ceiling: float) -> Samples:
    """The samples with no peak above the ceiling; `found`: their peaks, from `peaks`."""
    import numpy as np

    if not len(found) or found.max() <= ceiling:
        return samples
    wanted = np.minimum(1.0, ceiling / np.maximum(found, ceiling))
    wide = np.pad(wanted, 2 * _AROUND, constant_values=1.0)
    held = np.lib.stride_tricks.sliding_window_view(wide, 2 * _AROUND + 1).min(axis=1)
    smooth = np.hanning(2 * _AROUND + 3)[1:-1]
    gain = np.convolve(held, smooth / smooth.sum(), mode="valid")
    middles = np.arange(len(gain)) * _PIECE + _PIECE / 2
    return np.asarray(samples * np.interp(np.arange(len(samples)), middles, gain))
