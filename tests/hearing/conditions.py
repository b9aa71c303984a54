"""What happens to a recording: noise, breath, a room, a telephone. Our own choice, from a seed."""

from __future__ import annotations

from typing import Any

import numpy as np

Array = np.ndarray[Any, np.dtype[np.float64]]
RATE = 44_100


def noise(samples: Array, decibels: float, seed: int) -> Array:
    """White noise so far under the loudness of what sounds."""
    random = np.random.RandomState(seed)
    return samples + random.standard_normal(len(samples)) * _loudness(samples) * 10 ** (
        -decibels / 20
    )


def breath(samples: Array, seed: int) -> Array:
    """Breath: noise from 900 to 6500 Hz that comes with the tone, 18 dB under it."""
    random = np.random.RandomState(seed)
    hiss = _band(random.standard_normal(len(samples)), 900, 6500)
    hiss /= np.sqrt(np.mean(hiss**2))
    step = RATE // 50
    power = np.array([np.mean(samples[at : at + step] ** 2) for at in range(0, len(samples), step)])
    level = np.interp(np.arange(len(samples)), np.arange(len(power)) * step, np.sqrt(power))
    return np.asarray(samples + hiss * level * 10 ** (-18 / 20))


def room(samples: Array, seed: int, *, seconds: float = 0.45, wet: float = 0.5) -> Array:
    """A living room: noise that decays by 60 dB in `seconds`, 5 ms after the direct sound.

    `wet` is the power of the room against that of the direct sound.
    """
    random = np.random.RandomState(seed)
    at = np.arange(round(seconds * RATE)) / RATE
    tail = random.standard_normal(len(at)) * 10 ** (-3 * at / seconds)
    tail = np.concatenate([np.zeros(round(0.005 * RATE)), _band(tail, 150, 6000)])
    tail *= np.sqrt(wet / np.sum(tail**2))
    tail[0] += 1.0
    size = len(samples) + len(tail)
    size = 1 << (size - 1).bit_length()
    return np.fft.irfft(np.fft.rfft(samples, size) * np.fft.rfft(tail, size), size)[: len(samples)]


def phone(samples: Array) -> Array:
    """The band of a telephone, 300 to 3400 Hz (ITU-T G.712), loud parts pressed."""
    narrow = _band(samples, 300, 3400)
    most = np.max(np.abs(narrow)) or 1.0
    return np.asarray(np.tanh(2 * narrow / most) / np.tanh(2.0) * most)


def _band(samples: Array, low: float, high: float) -> Array:
    spectrum = np.fft.rfft(samples)
    hertz = np.fft.rfftfreq(len(samples), 1 / RATE)
    rise = np.clip((hertz - low * 0.85) / (low * 0.3), 0, 1)
    fall = np.clip((high * 1.15 - hertz) / (high * 0.3), 0, 1)
    return np.fft.irfft(spectrum * rise * fall, len(samples))


def _loudness(samples: Array) -> float:
    """The root mean square of what sounds."""
    loud = np.abs(samples) > 0.05 * np.max(np.abs(samples))
    return float(np.sqrt(np.mean(samples[loud] ** 2))) if loud.any() else 0.0
