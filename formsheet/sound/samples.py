"""Samples: the rate, and fades that keep a sound from clicking."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Samples = NDArray[np.float64]
    Places = NDArray[np.intp]

RATE = 44_100  # samples a second


def whole(seconds: float) -> int:
    """The number of the sample nearest to a time."""
    return round(seconds * RATE)


def moments(count: int) -> Samples:
    """The times of `count` samples in seconds, from 0."""
    import numpy as np

    return np.asarray(np.arange(count) / RATE)


def edges(count: int, attack: float, release: float) -> Samples:
    """An envelope from 0 to 1 and back, with raised cosines; both are shortened if too long.

    `attack` and `release` are in seconds.
    """
    import numpy as np

    wanted = attack + release
    fits = min(1.0, count / RATE / wanted) if wanted else 1.0
    rise, fall = int(attack * fits * RATE), int(release * fits * RATE)
    envelope = np.ones(count)
    envelope[:rise] = 0.5 - 0.5 * np.cos(np.pi * np.arange(rise) / max(1, rise))
    if fall:
        envelope[count - fall :] *= 0.5 + 0.5 * np.cos(np.pi * np.arange(1, fall + 1) / fall)
    return envelope
