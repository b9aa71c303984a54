"""Samples: the rate, and the soft edges that keep a sound from clicking."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Samples = NDArray[np.float64]
    Places = NDArray[np.intp]

RATE = 44_100  # samples a second


def whole(seconds: float) -> int:
    """The sample nearest to a moment."""
    return round(seconds * RATE)


def moments(count: int) -> Samples:
    """The seconds of so many samples, from 0."""
    import numpy as np

    return np.asarray(np.arange(count) / RATE)


def edges(count: int, attack: float, release: float) -> Samples:
    """From silence to 1 and back, by raised cosines; both shortened where they do not fit."""
    import numpy as np

    wanted = attack + release
    fits = min(1.0, count / RATE / wanted) if wanted else 1.0
    rise, fall = int(attack * fits * RATE), int(release * fits * RATE)
    envelope = np.ones(count)
    envelope[:rise] = 0.5 - 0.5 * np.cos(np.pi * np.arange(rise) / max(1, rise))
    if fall:
        envelope[count - fall :] *= 0.5 + 0.5 * np.cos(np.pi * np.arange(1, fall + 1) / fall)
    return envelope
