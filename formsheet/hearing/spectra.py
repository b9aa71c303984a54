"""Spectra of a recording: what rises out of the noise, with loud and soft brought together.

The numbers come from a study of sampled harmonicas in noise and rooms: our own choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
Samples = NDArray[Any]  # of any float type, from -1 to 1

RATE = 22_050  # samples a second of all that is heard
WINDOW = 2048  # samples: 93 ms
HOP = 352  # samples between spectra: 16 ms
HIGHEST_HERTZ = 9000.0
LOWEST_HERTZ = 80.0
_BIN = RATE / WINDOW  # hertz
FIRST_BIN, LAST_BIN = round(LOWEST_HERTZ / _BIN), round(HIGHEST_HERTZ / _BIN)

POWER = 0.4  # of the magnitudes
_TIMES_FLOOR = 2.0  # what is under this many local medians is noise
_FLOOR_STEP, _FLOOR_REACH = 16, 48  # bins
_STEADY = 15.0  # percentile over time that counts as steady noise
_RINGS, _RINGS_AFTER = np.float32(0.4), 5  # share of what sounded so many spectra before
_FADES = np.float32(0.76)  # from one spectrum to the next: 60 dB in 0.4 s
_QUIET = 0.2  # of the usual loudness (after `POWER`): what is softer hardly counts
_BLOCK_S, _MARGIN_S = 20, 1  # of the resampling


@dataclass(frozen=True)
class Spectra:
    """Normalised spectra, a row each `HOP` samples; the first is centred on the first sample."""

    rows: Floats  # frames by bins `FIRST_BIN` to `LAST_BIN`, of length 1 at most
    loudness: Floats  # of each frame before it was normalised, 1 where it is as loud as usual

    @property
    def seconds_a_frame(self) -> float:
        """Time between two rows."""
        return HOP / RATE


def bins_of(hertz: NDArray[np.float64]) -> NDArray[np.float64]:
    """Columns of the spectra (not whole) at some frequencies."""
    return np.asarray(hertz / _BIN - FIRST_BIN)


def resampled(samples: Samples, rate: int) -> Floats:
    """Mono samples at `RATE`; what is above half of it is cut off."""
    if rate == RATE:
        return np.asarray(samples, dtype=np.float32)
    block, margin = _BLOCK_S * rate, _MARGIN_S * rate
    parts = []
    for start in range(0, len(samples), block):
        piece = np.zeros(block + 2 * margin)
        first = max(0, start - margin)
        inside = samples[first : start + block + margin]
        at = first - (start - margin)
        piece[at : at + len(inside)] = inside
        spectrum = np.fft.rfft(piece)
        count = (_BLOCK_S + 2 * _MARGIN_S) * RATE
        kept = np.zeros(count // 2 + 1, dtype=complex)
        most = min(len(kept) - 1, len(spectrum))
        kept[:most] = spectrum[:most]
        whole = np.fft.irfft(kept, count) * (RATE / rate)
        parts.append(whole[_MARGIN_S * RATE : -_MARGIN_S * RATE].astype(np.float32))
    joined = np.concatenate(parts) if parts else np.zeros(0, dtype=np.float32)
    return joined[: round(len(samples) * RATE / rate)]


def spectra(samples: Floats) -> Spectra:
    """The spectra of samples at `RATE`."""
    magnitudes = _magnitudes(samples)
    floor = np.maximum(_TIMES_FLOOR * _local_median(magnitudes), _steady(magnitudes))
    rows = np.maximum(magnitudes - floor - _ringing(magnitudes), 0.0) ** POWER
    lengths = np.sqrt(np.einsum("tb,tb->t", rows, rows))
    usual = float(np.percentile(lengths, 90)) if len(lengths) else 0.0
    if usual <= 0.0:
        return Spectra(rows, lengths)
    rows /= np.sqrt(lengths**2 + (_QUIET * usual) ** 2)[:, None]
    return Spectra(rows, lengths / np.float32(usual))


def _ringing(magnitudes: Floats) -> Floats:
    """What a room may still ring with, from what sounded a while ago.

    It takes a share of a steady tone too, but from all its partials alike.
    """
    found = np.zeros_like(magnitudes)
    last = np.zeros(magnitudes.shape[1], dtype=np.float32)
    for at in range(_RINGS_AFTER, len(magnitudes)):
        last = np.maximum(last * _FADES, magnitudes[at - _RINGS_AFTER] * _RINGS)
        found[at] = last
    return found


def _magnitudes(samples: Floats) -> Floats:
    window = np.hanning(WINDOW + 1)[:-1].astype(np.float32)
    padded = np.pad(samples, (WINDOW // 2, WINDOW // 2))
    count = max(1, (len(padded) - WINDOW) // HOP + 1)
    frames = np.lib.stride_tricks.sliding_window_view(padded, WINDOW)[::HOP]
    rows = np.empty((count, LAST_BIN - FIRST_BIN), dtype=np.float32)
    for start in range(0, count, 512):
        spectrum = np.fft.rfft(frames[start : start + 512] * window, axis=1)
        rows[start : start + 512] = np.abs(spectrum[:, FIRST_BIN:LAST_BIN])
    return rows


def _local_median(magnitudes: Floats) -> Floats:
    """The median of the bins around each bin, worked out every few bins."""
    count = magnitudes.shape[1]
    centres, reach = np.arange(0, count, _FLOOR_STEP), _FLOOR_REACH // 2
    medians = np.stack(
        [np.median(magnitudes[:, max(0, at - reach) : at + reach], axis=1) for at in centres],
        axis=1,
    )
    places = np.arange(count) / _FLOOR_STEP
    below = np.minimum(places.astype(int), len(centres) - 1)
    above = np.minimum(below + 1, len(centres) - 1)
    share = (places - below).astype(np.float32)
    return np.asarray(medians[:, below] * (1 - share) + medians[:, above] * share)


def _steady(magnitudes: Floats) -> Floats:
    return np.percentile(magnitudes[::4], _STEADY, axis=0).astype(np.float32)
