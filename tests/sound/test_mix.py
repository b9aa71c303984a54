"""Takes as samples: onsets, levels, silence, nothing clipped, the same every time."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.sound.clips import Clip, clips_of
from formsheet.sound.drums import DRUMS, struck
from formsheet.sound.events import Event
from formsheet.sound.mix import AFTER, BEFORE, mastered, samples_of
from formsheet.sound.samples import RATE
from tests.lessons import NAMES, demo
from tests.sound.heard import onset_near, sounded

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples


FULL = 10 ** (-1 / 20)  # -1 dBTP, the job's own bound


@cache
def clip(name: str, which: str) -> Clip:
    tune = demo(name).tune
    assert tune
    return next(clip for clip in clips_of(tune) if clip.name == which)


@cache
def heard(name: str, which: str) -> Samples:
    found = clip(name, which)
    return samples_of(found.taken, float(found.tempo), band=found.band)


@pytest.mark.parametrize("name", ["back-step-shuffle", "slow-barge", "last-tram-but-one"])
def test_every_onset_is_heard_where_the_event_list_has_it(name: str) -> None:
    """Within 5 ms: the job's own bound."""
    found, samples = clip(name, "tune-full"), heard(name, "tune-full")
    seconds = 60 / float(found.tempo)
    starts = [BEFORE + event.start * seconds for event in found.taken.events]
    off = {at: onset_near(samples, at) - at for at in starts}
    assert len(off) > 30
    assert {at: away for at, away in off.items() if abs(away) > 0.005} == {}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_clipped_and_both_ends_are_silent(name: str) -> None:
    samples = mastered(heard(name, "tune-with-band"))
    assert 0.3 < np.max(np.abs(samples)) <= FULL
    assert not samples[: round(BEFORE * RATE)].any()
    assert not samples[-round(AFTER * RATE) :].any()


@pytest.mark.parametrize("name", NAMES)
def test_there_is_no_offset(name: str) -> None:
    assert abs(np.mean(heard(name, "tune-with-band"))) < 1e-3


@given(
    st.lists(st.integers(55, 114), min_size=1, max_size=10, unique=True).map(sorted),
    st.floats(0.001, 2.0),
    st.floats(30.0, 300.0),
)
@settings(max_examples=25, derandomize=True, deadline=None, database=None)
def test_the_loudest_chord_is_not_clipped(midi: list[int], length: float, tempo: float) -> None:
    every = tuple(midi)
    events = [Event("guide", 0, length, every, technique="accent") for _ in range(4)]
    samples = mastered(sounded(*events, tempo=tempo))
    assert np.max(np.abs(samples)) <= FULL


def test_the_first_click_is_accented() -> None:
    samples = heard("back-step-shuffle", "lick-porch-full")
    seconds = 60 / 92

    def click(beat: int) -> Samples:
        first = round((BEFORE + beat * seconds) * RATE)
        return samples[first : first + 4000]

    assert np.max(np.abs(click(0))) > 1.2 * np.max(np.abs(click(1)))
    assert np.argmax(np.abs(np.fft.rfft(click(0)))) > 1.3 * np.argmax(np.abs(np.fft.rfft(click(1))))


def test_the_same_take_is_the_same_samples() -> None:
    found = clip("two-lamps-on-mill-lane", "tune-with-band")
    again = samples_of(found.taken, float(found.tempo), band=found.band)
    assert np.array_equal(again, heard("two-lamps-on-mill-lane", "tune-with-band"))


@pytest.mark.parametrize("number", sorted(DRUMS))
def test_a_drum_starts_and_ends_in_silence(number: int) -> None:
    sound = struck(number)
    assert abs(sound[0]) < 1e-3
    assert abs(sound[-1]) < 1e-3
    assert 0.1 < np.max(np.abs(sound)) < 1.5
