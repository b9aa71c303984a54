"""The guide tone beside two sampled harmonicas; skipped where they are not installed.

The limits are the job's own: centroid within 25 per cent, partials within 6 dB on average.
"""

from __future__ import annotations

import numpy as np
import pytest

from formsheet.music.harp import Harp
from tests.sound.against_samples import HARPS, distance, ours, rows
from tests.sound.sampled import FONTS, missing

absent = missing()
pytestmark = [
    pytest.mark.skipif(
        bool(absent), reason=f"the sampled harmonicas need the packages {' '.join(absent)}"
    ),
    pytest.mark.parametrize("harp", HARPS, ids=lambda harp: harp.name),
]


def test_the_centroid_is_within_a_quarter(harp: Harp) -> None:
    """Of each harmonica over the whole harp; of one of them, or between them, in every note."""
    found = rows(harp)
    for package in FONTS:
        ratios = [
            r.ours.centroid / r.theirs[package].centroid for r in found if package in r.theirs
        ]
        assert 0.75 < np.mean(ratios) < 1.25, package
    for row in found:
        centroids = [each.centroid for each in row.theirs.values()]
        assert 0.75 * min(centroids) < row.ours.centroid < 1.25 * max(centroids), row.tab


def test_partials_are_within_six_decibels_of_one_of_them_on_average(harp: Harp) -> None:
    found = rows(harp)
    assert np.mean([row.nearest for row in found]) < 6
    assert max(row.nearest for row in found) < 7.5  # and no note is far from both
    apart = [distance(*row.theirs.values()) for row in found if len(row.theirs) == 2]
    assert np.mean(apart) > 6  # for scale: the two are further from each other


def test_the_level_moves_as_theirs_does(harp: Harp) -> None:
    """Between that of the one which hardly moves and 1 dB more than that of the other."""
    for row in rows(harp):
        moved = [each.movement for each in row.theirs.values()]
        assert min(moved) + 0.5 < row.ours.movement < max(max(moved), 3) + 1, row.tab


def test_a_note_speaks_as_fast_as_theirs(harp: Harp) -> None:
    """Never 16 ms slower than both; 20 ms faster than both at most, for the low notes of the
    samples come in late, and what is to be practised with must be in time."""
    for row in rows(harp):
        attacks = [each.attack for each in row.theirs.values()]
        assert min(attacks) - 20 < row.ours.attack < max(attacks) + 16, row.tab


def test_blow_and_draw_differ_and_the_balance_changes_from_note_to_note(harp: Harp) -> None:
    """By 1 dB in the mean of eight partials; what a listener tells apart, from memory."""
    lowest = harp.lowest
    pitches = range(lowest, lowest + 25)
    breaths = [distance(ours(midi, True), ours(midi, False)) for midi in pitches]
    steps = [distance(ours(midi, False), ours(midi + 2, False)) for midi in pitches]
    assert np.mean(breaths) > 1
    assert np.mean(steps) > 1
