"""Loudness and peaks of samples: ITU-R BS.1770-5 (11/2023), and a limiter.

Loudness is gated programme loudness (annex 1). The weighting is applied to the power spectrum of
each tenth of a second, which gives the same within 0.1 LU and is fast. Sums of the peaks between
the samples are found by oversampling four times (annex 2) where a sample is near the ceiling.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from formsheet.sound.samples import RATE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

SILENCE = -70.0  # LUFS: the absolute gate; nothing softer counts
_RELATIVE_GATE = -10.0  # LU under the loudness of what passes the absolute gate
_OFFSET = -0.691  # decibels: a tone of 997 hertz at full scale in one channel is -3.01 LUFS
_STEP = RATE // 10  # a gating block has four of them, and a new one begins with each
_STEPS_A_BLOCK = 4

# Coefficients at 48 kHz (annex 1, tables 1 and 2): a shelf for the head, a highpass.
_AT = 48_000
_SHELF = ((1.53512485958697, -2.69169618940638, 1.19839281085285),
          (1.0, -1.69065929318241, 0.73248077421585))  # fmt: skip
_HIGHPASS = ((1.0, -2.0, 1.0), (1.0, -1.99004745483398, 0.99007225036621))


def loudness(samples: Samples) -> float:
    """Programme loudness in LUFS; `SILENCE` where nothing passes the gate."""
    import numpy as np

    steps = powers(samples)
    if len(steps) < _STEPS_A_BLOCK:  # shorter than a block: as if it went on
        steps = np.full(_STEPS_A_BLOCK, steps.mean() if len(steps) else 0.0)
    return gated(steps)


def gated(steps: Samples) -> float:
    """Programme loudness in LUFS of the weighted powers of tenths of a second."""
    import numpy as np

    ends = np.concatenate([[0.0], np.cumsum(steps)])
    blocks = (ends[_STEPS_A_BLOCK:] - ends[:-_STEPS_A_BLOCK]) / _STEPS_A_BLOCK
    heard = blocks[blocks > _power(SILENCE)]
    if not len(heard):
        return SILENCE
    heard = heard[heard > _power(_lufs(float(heard.mean())) + _RELATIVE_GATE)]
    return _lufs(float(heard.mean()))


def powers(samples: Samples) -> Samples:
    """The weighted mean square of each whole tenth of a second, and of what is left over."""
    import numpy as np

    count = -(-len(samples) // _STEP)
    padded = np.zeros(count * _STEP, dtype=np.float32)
    padded[: len(samples)] = samples
    spectra = np.fft.rfft(padded.reshape(count, _STEP), axis=1)
    power = spectra.real**2 + spectra.imag**2
    return np.asarray(power @ _weights())


def weight(at: Samples) -> Samples:
    """What the power at some frequencies (hertz) is multiplied by: the weighting of annex 1."""
    import numpy as np

    z = np.exp(-2j * np.pi * at / _AT)
    gain = np.ones(len(z))
    for above, below in (_SHELF, _HIGHPASS):
        gain *= np.abs(np.polyval(above[::-1], z) / np.polyval(below[::-1], z)) ** 2
    return np.asarray(gain)


@cache
def _weights() -> Samples:
    """What each frequency of the spectrum of a step adds to its mean square."""
    import numpy as np

    gain = weight(np.fft.rfftfreq(_STEP, 1 / RATE).astype(np.float64))
    gain[1:-1] *= 2  # each stands for its mirror image too
    return np.asarray(gain / _STEP**2)


def _power(lufs: float) -> float:
    return float(10 ** ((lufs - _OFFSET) / 10))


def _lufs(power: float) -> float:
    import numpy as np

    return float(_OFFSET + 10 * np.log10(power))
