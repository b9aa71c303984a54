"""Loudness and peaks, held against an outside meter of ITU-R BS.1770."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING

import numpy as np
import pyloudnorm
import pytest
from soundfile import SoundFile

from formsheet.sound.clips import Clip, clip_samples, clip_sound, clips_of
from formsheet.sound.limiter import limited, peaks
from formsheet.sound.loudness import SILENCE, loudness
from formsheet.sound.mix import mastered, samples_of
from formsheet.sound.samples import RATE
from formsheet.sound.takes import BAND, GUIDE, Take
from formsheet.tune.timeline import Tune
from tests.lessons import NAMES, demo

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

# The job's own bounds.
LUFS, NEAR, SOFTER = -16.0, 1.0, 3.0
TRUE_PEAK = 10 ** (-1 / 20)


def meter(samples: Samples) -> float:
    """Programme loudness by the outside meter."""
    return float(pyloudnorm.Meter(RATE).integrated_loudness(samples))


def true_peak(samples: Samples) -> float:
    """The highest value of the wave, by Fourier interpolation: four places a sample."""
    spectrum = np.fft.rfft(samples)
    return float(np.max(np.abs(np.fft.irfft(spectrum, 4 * len(samples)))) * 4)


@cache
def tune_of(name: str) -> Tune:
    tune = demo(name).tune
    assert tune
    return tune


@cache
def clips(name: str) -> dict[str, Clip]:
    return {clip.name: clip for clip in clips_of(tune_of(name))}


def stems(found: Clip) -> list[float]:
    """Loudness of guide and band in the mix."""
    takes = [
        Take(tuple(e for e in found.taken.events if e.voice in voices), found.taken.beats)
        for voices in (GUIDE, BAND)
    ]
    return [meter(samples_of(taken, float(found.tempo), band=found.band)) for taken in takes]


def test_a_tone_of_997_hertz_at_full_scale_is_minus_3_01() -> None:
    """ITU-R BS.1770, annex 1."""
    tone = np.sin(2 * np.pi * 997 * np.arange(5 * RATE) / RATE)
    assert loudness(tone) == pytest.approx(-3.01, abs=0.05)
    assert loudness(tone * 10 ** (-20 / 20)) == pytest.approx(-23.01, abs=0.05)


def test_silence_is_gated() -> None:
    tone = np.sin(2 * np.pi * 997 * np.arange(5 * RATE) / RATE)
    assert loudness(np.append(tone, np.zeros(20 * RATE))) == pytest.approx(-3.01, abs=0.2)
    assert loudness(np.zeros(RATE)) == SILENCE
    assert loudness(np.zeros(0)) == SILENCE
    assert loudness(tone[: RATE // 5]) == pytest.approx(-3.01, abs=0.1)


@pytest.mark.parametrize("which", ["lick-flood-slow", "band-alone-full", "tune-with-band"])
def test_music_is_as_loud_as_the_outside_meter_says(which: str) -> None:
    samples = clip_samples(clips("slow-barge")[which])
    assert loudness(samples) == pytest.approx(meter(samples), abs=0.1)


def test_peaks_between_the_samples_are_found() -> None:
    """A tone of a quarter of the rate, sampled 45 degrees off its peaks, is 3 dB higher."""
    tone = np.sin(np.pi * np.arange(4000) / 2 + np.pi / 4) * np.hanning(4000)
    assert np.max(np.abs(tone)) == pytest.approx(0.707, abs=0.001)
    assert peaks(tone).max() == pytest.approx(1.0, abs=0.01)


def test_the_limiter_holds_peaks_and_leaves_the_rest() -> None:
    tone = 0.5 * np.sin(2 * np.pi * 440 * np.arange(RATE) / RATE)
    tone[20_000:20_400] *= 1.8
    held = limited(tone, peaks(tone), 0.6)
    assert true_peak(held) < 0.61
    away = np.r_[0:19_000, 21_400 : len(tone)]
    assert np.array_equal(held[away], tone[away])
    assert limited(tone, peaks(tone), 1.0) is tone


def test_what_would_have_to_be_limited_by_more_than_3_decibels_is_softer_instead() -> None:
    """A click in silence: 3 dB are turned down, the rest is lost in loudness."""
    samples = np.zeros(3 * RATE)
    samples[RATE : RATE + 200] = np.hanning(200)
    found = mastered(samples)
    assert true_peak(found) == pytest.approx(10 ** (-2 / 20), abs=0.01)
    assert loudness(found) < LUFS - 1
    shape = np.abs(found[RATE : RATE + 200])
    assert 20 * np.log10(shape.max() / shape[60]) < 20 * np.log10(1 / np.hanning(200)[60])


@pytest.mark.parametrize("name", NAMES)
def test_every_clip_is_at_one_loudness_and_its_peaks_are_held(name: str) -> None:
    """A slow and a full one of each kind of clip; the rest differ in their notes alone."""
    kinds: dict[str, Clip] = {}
    for clip in clips(name).values():
        first, last = clip.name.split("-")[0], clip.name.split("-")[-1]
        kinds.setdefault(f"{first} {last if last in ('slow', 'full') else ''}", clip)
    for clip in kinds.values():
        samples = clip_samples(clip)
        least = LUFS - NEAR - (SOFTER if clip.name.startswith("band-alone") else 0)
        assert least <= meter(samples) <= LUFS + NEAR, clip.name
        assert true_peak(samples) <= TRUE_PEAK, clip.name


@pytest.mark.parametrize("name", ["last-tram-but-one", "back-step-shuffle"])
def test_peaks_of_an_mp3_are_held_too(name: str) -> None:
    """Encoding makes peaks up to 1 dB higher: the second demo has the worst of all."""
    tune = tune_of(name)
    for which in ("tune-with-band", "band-alone-full"):
        with SoundFile(BytesIO(clip_sound(clips(name)[which], tune))) as file:
            heard = file.read()
        assert true_peak(heard) <= TRUE_PEAK
        assert meter(heard) == pytest.approx(LUFS, abs=NEAR + SOFTER)


@pytest.mark.parametrize("name", NAMES)
def test_the_band_is_4_to_6_under_the_guide(name: str) -> None:
    guide, band = stems(clips(name)["tune-with-band"])
    assert 4 <= guide - band <= 6
