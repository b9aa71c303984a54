"""Listening to samples: pitch by an outside estimator, onsets, levels."""

from __future__ import annotations

from math import log2
from typing import TYPE_CHECKING

import numpy as np
import parselmouth

from formsheet.music.pitch import hertz
from formsheet.sound.events import Event
from formsheet.sound.mix import samples_of
from formsheet.sound.samples import RATE
from formsheet.sound.takes import Take

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples


def sounded(*events: Event, tempo: float = 60.0) -> Samples:
    """Some events as a take, at a second a beat unless told otherwise."""
    end = max(event.start + event.length for event in events)
    return samples_of(Take(events, end), tempo)


def cents_off(samples: Samples, midi: float, start: float, end: float) -> float:
    """Cents from a MIDI pitch to what is heard between two moments, in seconds.

    By Praat's pitch analysis (cross-correlation), median of its frames.
    """
    wanted = hertz(midi)
    sound = parselmouth.Sound(samples[round(start * RATE) : round(end * RATE)], RATE)
    pitch = sound.to_pitch_cc(
        time_step=0.01, pitch_floor=max(60.0, wanted / 4), pitch_ceiling=max(1000.0, wanted * 2)
    )
    found = pitch.selected_array["frequency"]
    assert found[found > 0].size, "no pitch is heard"
    return 1200 * log2(float(np.median(found[found > 0])) / wanted)


def onset_near(samples: Samples, at: float, within: float = 0.04) -> float:
    """Where a sound starts near a moment: it rises to a twentieth of what it comes to."""
    first = round((at - within) * RATE)
    piece = np.abs(samples[first : round((at + within) * RATE)])
    quiet = int(np.argmin(_envelope(piece)[: round(within * 1.5 * RATE)]))
    loud = np.nonzero(piece[quiet:] > np.max(piece) / 20)[0]
    return (first + quiet + int(loud[0])) / RATE


def _envelope(piece: Samples) -> Samples:
    width = round(0.003 * RATE)
    return np.convolve(piece, np.ones(width) / width, mode="same")


def decibels(samples: Samples) -> float:
    """Root mean square against full scale."""
    return float(20 * np.log10(np.sqrt(np.mean(samples**2))))
