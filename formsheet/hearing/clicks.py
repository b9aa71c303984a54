"""The count-in that a take is recorded against, and finding it in a recording.

The click is the tool's own, so it is found by a matched filter: the recording held against the very
sound.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.notes import HeardNote
from formsheet.hearing.spectra import RATE, Floats, resampled
from formsheet.music.rhythm import METERS, Meter
from formsheet.sound.count_in import ACCENT, CLICK, click_events
from formsheet.sound.drums import struck
from formsheet.sound.mix import samples_of
from formsheet.sound.samples import RATE as SOUND_RATE
from formsheet.sound.takes import Take

_WITHIN_S = 30.0  # seconds from the start in which a count-in is looked for
_ALIKE = 0.22  # correlation, 0 to 1, of what may be a click
_SURE = 0.4  # mean correlation of a whole count-in
_NEAR_S = 0.02  # seconds by which a click may be off
_SLOWEST_S, _FASTEST_S = 3.0, 0.2  # seconds a beat: 20 to 300 beats a minute
_BAND = (1200.0, 4500.0)  # hertz: of the clicks
_BEFORE_S = 0.16  # seconds by which a room may make a click late
_RISEN = 0.4
_OVER_NOISE = 2.0
_SMOOTH = 66  # samples: 3 ms
_AT_END_S = 0.12  # seconds before the end of the count in which a first note may begin
_SHORTEST_S = 0.09  # of a note of a pick-up
_MOST_BARS = 4
_MOST_PEAKS = 40
_TOP = 20  # samples around a peak in which it is as like the sound as it gets
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
    filtered = {drum: _filtered(part, drum) for drum in (ACCENT, CLICK)}
    accents, others = filtered[ACCENT].peaks(), filtered[CLICK].peaks()
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
                found = _chain(filtered, accent, period, beats, bool(tempo))
                if found and (best is None or found[0] > best[0]):
                    best = found
    if not best:
        return None
    count = best[1]
    late = _late(part, [count.first + at * count.beat for at in range(count.clicks)])
    return count._replace(first=count.first - late)


def _late(samples: Floats, moments: Sequence[float]) -> float:
    """Seconds by which the strongest sound of clicks comes after they begin: in a room it does."""
    sounds = [_edge(resampled(struck(CLICK), SOUND_RATE), 0.0)]
    envelope = _envelope(samples)
    edges = [_first_risen(envelope, at) for at in moments]
    late = [at - edge for at, edge in zip(moments, edges, strict=True)]
    return float(np.median(late)) + sounds[0]


def _edge(sound: Floats, at: float) -> float:
    """When a sound alone rises, by the same measure."""
    padded = np.concatenate([np.zeros(RATE // 4, dtype=np.float32), sound, np.zeros(RATE // 4)])
    return _first_risen(_envelope(padded), at + 0.25) - 0.25


def _envelope(samples: Floats) -> NDArray[Any]:
    """The strength of the band in which clicks sound, at each sample."""
    size = 1 << (len(samples) - 1).bit_length()
    spectrum = np.fft.fft(samples, size)
    hertz = np.fft.fftfreq(size, 1 / RATE)
    low, high = _BAND
    rise = np.clip((hertz - low * 0.8) / (low * 0.2), 0, 1)
    fall = np.clip((high * 1.2 - hertz) / (high * 0.2), 0, 1)
    strength = np.abs(np.fft.ifft(spectrum * rise * fall))[: len(samples)]
    sums = np.concatenate([[0.0], np.cumsum(strength)])
    return np.asarray((sums[_SMOOTH:] - sums[:-_SMOOTH]) / _SMOOTH)


def _first_risen(envelope: NDArray[Any], at: float) -> float:
    """When the envelope first rises to a share of its most, shortly before a time or after it."""
    first = max(0, round((at - _BEFORE_S) * RATE))
    part = envelope[first : round((at + _NEAR_S) * RATE)]
    if not len(part):
        return at
    risen = max(_RISEN * float(part.max()), _OVER_NOISE * float(np.median(part)))
    return (first + int(np.argmax(part > risen))) / RATE if risen < part.max() else at


class _Filtered(NamedTuple):
    """The recording held against a sound, at each sample."""

    strength: NDArray[Any]  # how strongly the sound is there
    alike: NDArray[Any]  # how much what is there is like it, 0 to 1

    def peaks(self) -> list[float]:
        """The times at which the sound may be: the strongest places, a tenth of a second apart."""
        found: list[float] = []
        left = np.where(self.alike >= _ALIKE, self.strength, 0.0)
        for _ in range(_MOST_PEAKS):
            if not len(left):
                break
            at = int(np.argmax(left))
            if left[at] <= 0:
                break
            found.append(at / RATE)
            left[max(0, at - RATE // 10) : at + RATE // 10] = 0
        return sorted(found)

    def near(self, expected: float) -> tuple[float, float] | None:
        """Time and likeness of the strongest place near a time."""
        low = max(0, round((expected - _NEAR_S) * RATE))
        part = self.strength[low : round((expected + _NEAR_S) * RATE)]
        if not len(part):
            return None
        at = low + int(np.argmax(part))
        return at / RATE, float(self.alike[max(0, at - _TOP) : at + _TOP].max())


def _filtered(samples: Floats, drum: int) -> _Filtered:
    """A room makes what follows a click like it too, but never as strong."""
    sound = resampled(struck(drum), SOUND_RATE)[: round(_LENGTH_S * RATE)]
    sound = sound / np.linalg.norm(sound)
    if len(samples) <= len(sound):
        return _Filtered(np.zeros(0), np.zeros(0))
    size = 1 << (len(samples) + len(sound) - 1).bit_length()
    spectrum = np.fft.rfft(samples, size) * np.conj(np.fft.rfft(sound, size))
    strength = np.abs(np.fft.irfft(spectrum, size)[: len(samples)])
    sums = np.concatenate([[0.0], np.cumsum(samples.astype(float) ** 2)])
    ends = np.minimum(np.arange(len(samples)) + len(sound), len(samples))
    power = sums[ends] - sums[np.arange(len(samples))]
    least = max(1e-3 * float(power.max()), 1e-12)
    return _Filtered(strength, strength / np.sqrt(np.maximum(power, least)))


def _chain(
    filtered: dict[int, _Filtered], first: float, period: float, beats: int, known: bool
) -> tuple[float, CountIn] | None:
    """The count-in that begins at an accent, with what speaks for it."""
    moments: list[float] = []
    scores: list[float] = []
    step = period
    for number in range(beats * _MOST_BARS):
        expected = moments[-1] + step if moments else first
        here = filtered[CLICK if number % beats else ACCENT].near(expected)
        other = filtered[ACCENT if number % beats else CLICK].near(expected)
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


def _line(moments: Sequence[float], beat: float | None) -> tuple[float, float]:
    """The beat and the first moment that are nearest to all of them."""
    numbers = np.arange(len(moments))
    if beat is None:
        beat, start = (float(each) for each in np.polyfit(numbers, moments, 1))
        return beat, start
    return beat, float(np.median(np.asarray(moments) - numbers * beat))


def after_count(notes: Sequence[HeardNote], count_in: CountIn) -> list[HeardNote]:
    """The notes of the take: none of the count but a pick-up that leads into the first bar."""
    kept: list[HeardNote] = []
    bar = count_in.meter * count_in.beat
    for note in reversed(notes):
        if note.start >= count_in.end - _AT_END_S:
            kept.append(note)
            continue
        follows = kept[-1].start if kept else count_in.end
        in_bar = note.start >= count_in.end - bar + count_in.beat / 4
        if (
            in_bar
            and follows - note.end < count_in.beat / 4
            and note.end - note.start > _SHORTEST_S
        ):
            kept.append(note)
        else:
            break
    return kept[::-1]
