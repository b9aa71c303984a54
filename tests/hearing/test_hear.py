"""Samples to a lick, with our own sounds: what is written is what was played."""

from __future__ import annotations

import time
from fractions import Fraction as F

import numpy as np
import pytest

from formsheet.hearing.clicks import count_in_samples, found_count_in
from formsheet.hearing.hear import Hearing, NothingHeard, hear
from formsheet.hearing.notes import Doubt, listen
from formsheet.hearing.spectra import RATE as OWN_RATE
from formsheet.hearing.spectra import resampled
from formsheet.hearing.which_harp import layouts_of
from formsheet.music.rhythm import METERS
from formsheet.music.swing import STRAIGHT, SWING
from formsheet.sound.samples import RATE
from tests.hearing.made_licks import harp_of
from tests.hearing.sounded import PORCH, recording


def tab(found: Hearing) -> list[str]:
    return [str(note.tab) for note in found.notes]


def test_a_lick_with_its_count_in() -> None:
    found = hear(recording(), RATE, harp_of("A"), tempo=96, feel=STRAIGHT)
    assert tab(found) == [each for each, _, _ in PORCH]
    assert [note.start for note in found.notes] == [F(start) for _, start, _ in PORCH]
    assert found.count_in is not None
    assert found.count_in.clicks == 4


def test_tempo_and_meter_are_those_of_the_count_in() -> None:
    notes = [("2d", 0.0, 1.0), ("3d", 1.0, 1.0), ("4d", 2.0, 1.0), ("4b", 3.0, 2.0)]
    found = hear(recording(notes, meter="3/4", tempo=112), RATE, harp_of("A"))
    assert found.meter == METERS["3/4"]
    assert found.tempo == pytest.approx(112, abs=1)
    assert [note.start for note in found.notes] == [0, 1, 2, 3]


def test_without_a_count_in_the_first_note_is_the_first_beat() -> None:
    found = hear(recording(count=False), RATE, harp_of("A"), tempo=96, feel=STRAIGHT)
    assert found.count_in is None
    assert found.notes[0].start == 0
    assert tab(found) == [each for each, _, _ in PORCH]


def test_tempo_is_estimated() -> None:
    found = hear(recording(count=False), RATE, harp_of("A"))
    assert found.tempo == pytest.approx(96, rel=0.02)


def test_swing_is_heard() -> None:
    swung = [(name, start + (1 / 6 if start % 1 else 0.0), 0.33) for name, start, _ in PORCH]
    found = hear(recording(swung), RATE, harp_of("A"), tempo=96)
    assert found.feel == SWING
    assert [note.start for note in found.notes] == [F(start) for _, start, _ in PORCH]


def test_a_pick_up_in_the_count() -> None:
    notes = [("1d", -0.5, 0.5), *PORCH]
    found = hear(recording(notes), RATE, harp_of("A"), tempo=96, feel=STRAIGHT)
    assert found.notes[0].start == F(-1, 2)
    assert tab(found) == ["1d", *(each for each, _, _ in PORCH)]


def test_chords_where_they_are_asked_for() -> None:
    notes = [("123d", 0.0, 1.0), ("4d", 1.0, 1.0), ("34b", 2.0, 1.0), ("35b", 3.0, 1.0)]
    found = hear(recording(notes), RATE, harp_of("A"), tempo=96, feel=STRAIGHT, chords=True)
    assert tab(found) == ["123d", "4d", "34b", "35b"]


def test_a_shake_is_one_note() -> None:
    harp = harp_of("A")
    notes = [("4d" if at % 2 == 0 else "5d", at / 7, 1 / 7) for at in range(14)]
    found = hear(recording(notes, tempo=80), RATE, harp, tempo=80, feel=STRAIGHT)
    assert tab(found) == ["4d"]
    assert found.notes[0].heard.shake is not None


def test_tuning_is_heard() -> None:
    samples = recording()
    faster = np.interp(np.arange(0, len(samples), 443 / 440), np.arange(len(samples)), samples)
    assert listen(faster, RATE).tuning == pytest.approx(12, abs=3)
    assert listen(samples, RATE).tuning == pytest.approx(0, abs=3)


def test_nothing_to_hear() -> None:
    noise = np.random.RandomState(1).standard_normal(2 * RATE) * 0.1
    with pytest.raises(NothingHeard):
        hear(noise, RATE, harp_of("A"))
    with pytest.raises(NothingHeard):
        hear(np.zeros(RATE), RATE, harp_of("A"))


@pytest.mark.parametrize("tempo", [60, 96, 160])
@pytest.mark.parametrize("meter", ["4/4", "3/4", "6/8"])
def test_the_count_in_is_found_in_noise(tempo: int, meter: str) -> None:
    """Within 10 ms, as takes.md asks of it."""
    clicks = count_in_samples(tempo, METERS[meter], 2)
    late = np.concatenate([np.zeros(RATE // 3), clicks, np.zeros(RATE)])
    noisy = late + np.random.RandomState(tempo).standard_normal(len(late)) * 0.02
    found = found_count_in(resampled(noisy, RATE), None, None)
    assert found is not None
    beats = METERS[meter].beats
    assert (found.clicks, found.meter) == (2 * beats, beats)
    assert found.first == pytest.approx(1 / 3 + 0.25, abs=0.01)
    assert found.beat == pytest.approx(60 / tempo, abs=0.003)


def test_no_count_in_in_playing() -> None:
    assert found_count_in(resampled(recording(count=False), RATE), None, None) is None


def test_the_harp_is_found_and_second_position_comes_first() -> None:
    layouts = layouts_of(listen(recording(count=False), RATE), None)
    assert (layouts[0].harp.name, layouts[0].position) == ("A", 2)


def test_two_draw_and_three_blow() -> None:
    """2 draw unless both neighbours are blown. Common practice, no source."""
    notes = [("2d", 0.0, 1.0), ("4b", 1.0, 1.0), ("3b", 2.0, 1.0), ("4b", 3.0, 1.0)]
    found = hear(recording(notes), RATE, harp_of("A"), tempo=96, feel=STRAIGHT)
    assert tab(found) == ["2d", "4b", "3b", "4b"]
    assert Doubt.PLACE in found.notes[2].doubts


def test_a_minute_is_heard_in_time() -> None:
    """2 s of processor time is asked for; twice that, for a machine that others use too."""
    lick = recording(count=False)
    minute = np.tile(lick, 60 * RATE // len(lick) + 1)[: 60 * RATE]
    hear(lick, RATE, harp_of("A"), tempo=96)
    begun = time.process_time()
    hear(minute, RATE, harp_of("A"), tempo=96)
    assert time.process_time() - begun < 4


def test_any_rate() -> None:
    samples = recording()
    for rate in (OWN_RATE, 16_000, 48_000):
        at = np.arange(0, len(samples), RATE / rate)
        changed = np.interp(at, np.arange(len(samples)), samples)
        found = hear(changed, rate, harp_of("A"), tempo=96, feel=STRAIGHT)
        assert tab(found) == [each for each, _, _ in PORCH]
