"""Techniques as data: all of them, within the bounds of a breath."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.sound.events import Event
from formsheet.sound.motion import brightness, cents, loudness, sounding, stretches
from formsheet.sound.shapes import PLAIN, SHAPES, along, shape_of
from formsheet.vocabulary.techniques import TECHNIQUES

LENGTHS = st.floats(0.02, 8.0)
few = settings(max_examples=30, derandomize=True, deadline=None, database=None)


def test_every_technique_has_a_shape_of_its_own() -> None:
    assert set(SHAPES) == set(TECHNIQUES)
    assert len({repr(shape) for shape in (PLAIN, *SHAPES.values())}) == len(TECHNIQUES) + 1


def test_no_technique_is_plain() -> None:
    assert shape_of("") is PLAIN


@pytest.mark.parametrize("technique", ["", *TECHNIQUES])
@given(length=LENGTHS)
@few
def test_a_shape_stays_within_bounds_at_any_length(technique: str, length: float) -> None:
    shape = shape_of(technique)
    at = np.linspace(0, length, 200)
    assert np.all(np.abs(cents(shape, at, length)) <= 100)  # a half step: what a bend gives
    assert np.all(loudness(shape, at, length) > 0.2)
    assert np.all(loudness(shape, at, length) < 1.5)
    assert np.all((brightness(shape, at, length) >= 0) & (brightness(shape, at, length) <= 1))


@pytest.mark.parametrize("technique", TECHNIQUES)
@given(length=LENGTHS)
@few
def test_points_stand_in_order_and_inside_the_note(technique: str, length: float) -> None:
    shape = shape_of(technique)
    for curve in (shape.pitch, shape.loudness, shape.brightness):
        places, _ = along(curve, length, 0.0)
        assert all(one <= other for one, other in pairwise(places))
        assert places[0] >= 0
        assert places[-1] <= length


@pytest.mark.parametrize("technique", ["dip", "scoop"])
def test_a_bent_technique_ends_on_the_pitch(technique: str) -> None:
    assert cents(shape_of(technique), np.array([0.99]), 1.0)[0] == 0


@pytest.mark.parametrize("technique", ["", *TECHNIQUES])
@given(length=LENGTHS, tempo=st.floats(30, 300))
@few
def test_stretches_fill_what_sounds(technique: str, length: float, tempo: float) -> None:
    event = Event("guide", 0, length, (74,), technique=technique, neighbour=(77,))
    found = list(stretches(event, 60 / tempo))
    assert found[0].start == 0
    assert sum(each.length for each in found) == pytest.approx(sounding(event, 60 / tempo))
    assert found[0].midi == (74,)


def test_a_shake_without_a_neighbour_is_one_note() -> None:
    assert len(list(stretches(Event("guide", 0, 4, (93,), technique="shake"), 1.0))) == 1
