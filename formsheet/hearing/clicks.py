"""The count-in that a take is recorded against, and finding it in a recording.

The click is the tool's own, so it is found by a matched filter: the recording held against the very
sound.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.spectra import RATE, Floats, resampled
from formsheet.music.rhythm import METERS, Meter
from formsheet.sound.count_in import ACCENT, CLICK, click_events
from formsheet.sound.drums import struck
from formsheet.sound.mix import samples_of
from formsheet.sound.samples import RATE as SOUND_RATE
from formsheet.sound.takes import Take

_WITHIN_S = 40.0  # seconds from the start in which a count-in is looked for
_ALIKE = 0.22  # correlation, 0 to 1, of what may be a click
_SURE = 0.4  # mean correlation of a whole count-in
_NEAR_S = 0.02  # seconds by which a click may be off
_SLOWEST_S, _FASTEST_S = 3.0, 0.2  # seconds a beat: 20 to 300 beats a minute
_MOST_BARS = 4
_RING_S = 0.05  # seconds in which a click covers what is played
_LENGTH_S = 0.06  # seconds of the click that are compared


class CountIn(NamedTuple):
    """The count-in of a recording."""

    first: float  # seconds from the start of the recording to its first click
    beat: float  # seconds a beat
    clicks: int  # how many, whole bars
    meter: int  # beats a bar

    @property
    def end(self) -> float:
        """Where the first bar begins."""
        return self.first + self.clicks * self.beat

    @property
    def covered(self) -> list[tuple[float, float]]:
        """The times that are covered by clicks."""
        moments = (self.first + at * self.beat for at in range(self.clicks))
        return [(at - 0.01, at + _RING_S) for at in moments]


def count_in_samples(tempo: float, meter: Meter, bars: int) -> Any:
    """The clicks of some bars, to record against; `tempo` in beats a minute. 44.1 kHz."""
    return samples_of(Take(click_events(meter, bars), float(bars * meter.beats)), tempo)


def found_count_in(samples: Floats, tempo: float | None, meter: Meter | None) -> CountIn | None:
    """The count-in at the start of samples at `RATE`; None where there is none.

    `tempo` in beats a minute and `meter` where they are known.
    """
    part = samples[: round(_WITHIN_S * RATE)]
    alike = {drum: _alike(part, drum) for drum in (ACCENT, CLICK)}
    accents, others = _peaks(alike[ACCENT]), _peaks(alike[CLICK])
    beats_a_bar = [meter.beats] if meter else sorted({each.beats for each in METERS.values()})
    best: tuple[float, CountIn] | None = None
    for accent in accents:
        if tempo:
            periods = [60 / tempo]
        else:
            gaps = (other - accent for other in others)
            periods = sorted({gap for gap in gaps if _FASTEST_S <= gap <= _SLOWEST_S})[:12]
        for period in periods:
            for beats in beats_a_bar:
                found = _chain(alike, accent, period, beats, bool(tempo))
                if found and (best is None or found[0] > best[0]):
                    best = found
    return best[1] if best else None


def _alike(samples: Floats, drum: int) -> NDArray[Any]:
    """The correlation of each place with the sound, 0 to 1."""
    sound = resampled(struck(drum), SOUND_RATE)[: round(_LENGTH_S * RATE)]
    sound = sound / np.linalg.norm(sound)
    if len(samples) <= len(sound):
        return np.zeros(0)
    size = 1 << (len(samples) + len(sound) - 1).bit_length()
    spectrum = np.fft.rfft(samples, size) * np.conj(np.fft.rfft(sound, size))
    product = np.fft.irfft(spectrum, size)[: len(samples)]
    sums = np.concatenate([[0.0], np.cumsum(samples.astype(float) ** 2)])
    ends = np.minimum(np.arange(len(samples)) + len(sound), len(samples))
    power = sums[ends] - sums[np.arange(len(samples))]
    least = 1e-3 * float(power.max())
    return np.abs(product) / np.sqrt(np.maximum(power, max(least, 1e-12)))


def _peaks(alike: NDArray[Any]) -> list[float]:
    """The times of the highest places, each the highest for a tenth of a second."""
    found: list[float] = []
    left = alike.copy()
    for _ in range(40):
        if not len(left):
            break
        at = int(np.argmax(left))
        if left[at] < _ALIKE:
            break
        found.append(at / RATE)
        left[max(0, at - RATE // 10) : at + RATE // 10] = 0
    return sorted(found)


def _chain(
    alike: dict[int, NDArray[Any]], first: float, period: float, beats: int, known: bool
) -> tuple[float, CountIn] | None:
    """The count-in that begins at an accent, with what speaks for it."""
    moments: list[float] = []
    scores: list[float] = []
    step = period
    for number in range(beats * _MOST_BARS):
        expected = moments[-1] + step if moments else first
        here = _strongest(alike[CLICK if number % beats else ACCENT], expected)
        other = _strongest(alike[ACCENT if number % beats else CLICK], expected)
        if here is None or here[1] < _ALIKE or (other and other[1] > here[1]):
            break
        moments.append(here[0])
        scores.append(here[1])
        if len(moments) > 1 and not known:
            step = (moments[-1] - moments[0]) / (len(moments) - 1)
    clicks = len(moments) // beats * beats
    if clicks < 2 or float(np.mean(scores[:clicks])) < _SURE:
        return None
    beat, start = _line(moments[:clicks], period if known else None)
    return sum(scores[:clicks]) - 0.01 * beats, CountIn(start, beat, clicks, beats)


def _strongest(alike: NDArray[Any], expected: float) -> tuple[float, float] | None:
    low = max(0, round((expected - _NEAR_S) * RATE))
    part = alike[low : round((expected + _NEAR_S) * RATE)]
    if not len(part):
        return None
    at = int(np.argmax(part))
    return (low + at) / RATE, float(part[at])


def _line(moments: Sequence[float], beat: float | None) -> tuple[float, float]:
    """The beat and the first moment that are nearest to all of them."""
    numbers = np.arange(len(moments))
    if beat is None:
        beat, start = (float(each) for each in np.polyfit(numbers, moments, 1))
        return beat, start
    return beat, float(np.median(np.asarray(moments) - numbers * beat))
