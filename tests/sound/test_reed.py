"""The guide tone, heard: pitch, partials, edges."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
import pytest

from formsheet.music.harp import Harp
from formsheet.music.pitch import hertz
from formsheet.music.tunings import COUNTRY, NATURAL_MINOR
from formsheet.sound.events import Event, guide_events
from formsheet.sound.mix import BEFORE
from formsheet.sound.reed import guide_tone
from formsheet.sound.samples import RATE
from formsheet.vocabulary.techniques import TECHNIQUES
from tests.helpers import over, tune_of
from tests.sound.heard import cents_off, decibels, sounded

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

HARPS = [
    Harp("C"),
    Harp("G"),
    Harp("A", tuning=NATURAL_MINOR),
    Harp("D", tuning=COUNTRY),
    Harp("F", "low"),
    Harp("F#", "high"),
]
MOST_CENTS = 3.0  # the job's own bound
LENGTH = 0.35  # seconds


def guide(*midi: int, length: float = LENGTH, start: float = 0.0, technique: str = "") -> Event:
    return Event("guide", start, length, midi, technique=technique)


@pytest.mark.parametrize("harp", HARPS, ids=lambda harp: f"{harp.name} {harp.tuning.name}")
def test_every_single_note_sounds_at_its_pitch(harp: Harp) -> None:
    """All natural notes, bends and overbends, against equal temperament with A4 at 440 Hz."""
    pitches = sorted({midi for _, midi in harp.single_notes(overbends=True)})
    off = {
        midi: cents_off(sounded(guide(midi)), midi, BEFORE + 0.05, BEFORE + 0.3) for midi in pitches
    }
    assert len(off) > 20
    assert {midi: cents for midi, cents in off.items() if abs(cents) > MOST_CENTS} == {}


def spectrum(samples: Samples) -> tuple[Samples, Samples]:
    middle = samples[round((BEFORE + 0.1) * RATE) : round((BEFORE + 1.1) * RATE)]
    windowed = middle * np.hanning(len(middle))
    return np.fft.rfftfreq(len(middle), 1 / RATE).astype(np.float64), np.abs(np.fft.rfft(windowed))


@pytest.mark.parametrize("midi", [(67, 71, 74), (60, 72), (55, 59, 62, 67)])
def test_each_reed_of_a_chord_sounds_at_its_pitch(midi: tuple[int, ...]) -> None:
    frequencies, strength = spectrum(sounded(guide(*midi, length=1.2)))
    for note in midi:
        near = (frequencies > hertz(note - 0.4)) & (frequencies < hertz(note + 0.4))
        peak = int(np.flatnonzero(near)[np.argmax(strength[near])])
        low, top, high = np.log(strength[peak - 1 : peak + 2])  # a parabola through the peak
        found = frequencies[peak] + 0.5 * (low - high) / (low - 2 * top + high)
        assert abs(1200 * np.log2(found / hertz(note))) < MOST_CENTS


def test_odd_and_even_partials_sound_and_the_highest_stay_in_the_band() -> None:
    frequencies, strength = spectrum(sounded(guide(114, length=1.2)))  # the highest bend there is
    assert np.max(strength[frequencies > 14_000]) < np.max(strength) / 1000
    frequencies, strength = spectrum(sounded(guide(62, length=1.2)))
    for number in range(1, 9):
        at = np.abs(frequencies - number * hertz(62)).argmin()
        assert strength[at] > np.max(strength) / 100


def test_a_note_starts_and_ends_without_a_click() -> None:
    """At the edges no step from sample to sample is larger than the tone's own."""
    samples = sounded(guide(62, length=0.4), guide(63, length=0.4, start=0.4))
    steps = np.abs(np.diff(samples))
    own = np.max(steps[round((BEFORE + 0.1) * RATE) : round((BEFORE + 0.3) * RATE)])
    for at in (0.0, 0.4, 0.8):
        edge = round((BEFORE + at) * RATE)
        assert np.max(steps[edge - 400 : edge + 400]) <= own
        assert np.max(steps[edge - 20 : edge + 20]) < own / 4


@pytest.mark.parametrize("technique", TECHNIQUES)
def test_no_technique_clicks(technique: str) -> None:
    """Wherever a note is changed, no step goes far beyond the plain tone's largest."""
    plain = np.max(np.abs(np.diff(sounded(guide(67, length=1.0)))))
    event = Event("guide", 0, 1.0, (67,), technique=technique, neighbour=(71,))
    assert np.max(np.abs(np.diff(sounded(event)))) < 2.2 * plain


def test_a_shake_turns_between_the_hole_and_the_next() -> None:
    samples = sounded(Event("guide", 0, 1.0, (74,), technique="shake", neighbour=(77,)))
    turn = 0.1  # ten turns a second
    for number in range(6):
        start = BEFORE + number * turn
        pitch = 77 if number % 2 else 74
        assert abs(cents_off(samples, pitch, start + 0.01, start + 0.09)) < MOST_CENTS


def test_a_scoop_comes_from_below_and_a_dip_goes_there_and_back() -> None:
    scoop, dip = (sounded(guide(74, length=0.6, technique=word)) for word in ("scoop", "dip"))
    assert cents_off(scoop, 74, BEFORE, BEFORE + 0.07) < -50
    assert cents_off(dip, 74, BEFORE + 0.09, BEFORE + 0.16) < -50
    for samples in (scoop, dip):
        assert abs(cents_off(samples, 74, BEFORE + 0.3, BEFORE + 0.55)) < MOST_CENTS


def test_vibrato_sways_about_the_pitch() -> None:
    samples = sounded(guide(67, length=1.4, technique="vibrato"))
    places = np.arange(0.5, 1.2, 0.02)
    heard = [cents_off(samples, 67, BEFORE + at, BEFORE + at + 0.06) for at in places]
    assert max(heard) > 8
    assert min(heard) < -8
    assert abs(np.mean(heard)) < MOST_CENTS


def test_techniques_of_loudness_are_heard() -> None:
    def level(technique: str, start: float, end: float) -> float:
        samples = sounded(guide(67, length=1.0, technique=technique))
        return decibels(
            samples[round((BEFORE + start) * RATE) : round((BEFORE + end) * RATE)] + 1e-9
        )

    assert level("accent", 0.02, 0.08) > level("", 0.02, 0.08) + 1.5
    assert level("wah", 0.02, 0.06) < level("wah", 0.3, 0.7) - 3
    assert level("short", 0.52, 0.9) < -100
    assert level("slap", 0.0, 0.01) > level("", 0.0, 0.01) + 6
    swings = [level("flutter", at, at + 0.02) for at in np.arange(0.2, 0.9, 0.02)]
    assert max(swings) - min(swings) > 4
    thirds = [level("", at, at + 0.25) for at in (0.15, 0.4, 0.65)]
    assert thirds == sorted(thirds, reverse=True)  # the breath spends itself
    assert thirds[0] - thirds[-1] == pytest.approx(1.2, abs=0.8)
    moving = [level("", at, at + 0.05) for at in np.arange(0.2, 0.9, 0.05)]
    assert 0.02 < max(abs(one - other) for one, other in pairwise(moving)) < 1.0  # never at once


def test_blow_and_draw_sound_different_at_the_same_pitch() -> None:
    """By 1 dB at least in the mean of the first eight partials; own choice."""
    _, blown = spectrum(sounded(guide(67, length=1.2)))
    frequencies, drawn = spectrum(sounded(replace(guide(67, length=1.2), draw=True)))
    at = [np.abs(frequencies - number * hertz(67)).argmin() for number in range(1, 9)]
    apart = 20 * np.log10(drawn[at] / blown[at])
    assert np.mean(np.abs(apart - np.mean(apart))) > 1
    assert np.mean(apart[4:]) > np.mean(apart[:2]) + 1  # a drawn note is brighter


def test_low_reeds_speak_more_slowly() -> None:
    """Milliseconds to half the full loudness."""

    def half(midi: int) -> float:
        tone = np.abs(guide_tone(guide(midi, length=1.0), 1.0))
        return float(np.argmax(tone > np.max(tone) / 2)) / RATE

    assert half(55) > 1.3 * half(93)


@pytest.mark.parametrize(("depth", "slide"), [(1, 55.0), (2, 110.0), (3, 165.0)])
def test_a_bend_slides_in_settles_and_lets_go(depth: int, slide: float) -> None:
    """Down onto its pitch within 80 ms, held within 3 cents, and up again as the note ends."""
    bend = replace(guide(70, length=0.6), draw=True, slide=slide)
    samples = sounded(bend)
    assert cents_off(samples, 70, BEFORE, BEFORE + 0.05) > 8 * depth
    assert abs(cents_off(samples, 70, BEFORE + 0.08, BEFORE + 0.56)) < MOST_CENTS
    assert cents_off(samples, 70, BEFORE + 0.57, BEFORE + 0.6) > 2 * depth


def test_an_overbend_comes_from_below() -> None:
    samples = sounded(replace(guide(75, length=0.6), slide=-45.0))
    assert cents_off(samples, 75, BEFORE, BEFORE + 0.05) < -8
    assert abs(cents_off(samples, 75, BEFORE + 0.08, BEFORE + 0.56)) < MOST_CENTS


def test_the_slides_of_a_lesson_are_those_of_its_bends() -> None:
    """Drawn and bent as the tab says; a technique that moves the pitch takes the slide's place."""
    tune = tune_of(over("I", "q 2d'' 4b 6ob 3d'"))
    events = guide_events(tune)
    assert [event.draw for event in events] == [True, False, False, True]
    assert [event.slide for event in events] == [110, 0, -45, 55]
    scooped = replace(events[0], technique="scoop", length=1.0)
    same = replace(scooped, slide=0.0)
    assert np.array_equal(guide_tone(scooped, 1.0), guide_tone(same, 1.0))


def test_an_octave_beats_a_little_and_a_single_note_does_not() -> None:
    """Two reeds 2 cents apart an octave up: their common partials come and go in 1.7 seconds.

    Heard in the second partial of the lower reed, by its level in fifths of a second.
    """

    def movement(*midi: int) -> float:
        tone = guide_tone(guide(*midi, length=2.4), 1.0)
        turn = np.exp(-2j * np.pi * hertz(72) * np.arange(len(tone)) / RATE)
        pieces = np.abs(np.add.reduceat(tone * turn, np.arange(0, len(tone), RATE // 5)))[1:-1]
        return float(20 * np.log10(np.max(pieces) / np.min(pieces)))

    assert movement(60, 72) > movement(72) + 1
