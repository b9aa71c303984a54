"""Floors under the figures: a few made licks, played by sampled harmonicas (see `figures.py`)."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from tests.hearing.cases import Take, takes, under
from tests.hearing.figures import scores
from tests.hearing.made_licks import made_lick
from tests.hearing.performed import missing
from tests.hearing.planted import Named, count_planted, count_right
from tests.hearing.scored import Score

pytestmark = pytest.mark.skipif(bool(missing()), reason=f"needs {', '.join(missing())}")

#: Seeds of neither the constants nor the figures.
FIRST, COUNT = 90_000, 8


@cache
def played(human: bool) -> tuple[Take, ...]:
    return tuple(takes([made_lick(FIRST + at) for at in range(COUNT)], human=human))


def found(condition: str) -> list[Score]:
    return scores(list(under(condition, played(False), played(True))))


@pytest.mark.parametrize(
    ("condition", "floor"),
    [("clean", 0.97), ("human", 0.97), ("noise 10 dB", 0.93), ("room", 0.8)],
)
def test_notes(condition: str, floor: float) -> None:
    assert np.mean([each.f for each in found(condition)]) >= floor


def test_licks_that_are_right_in_all() -> None:
    scored = found("human")
    assert np.mean([each.attacks for each in scored]) >= 0.7
    assert np.mean([each.lengths for each in scored]) >= 0.6


def test_chords() -> None:
    """Octave splits apart: they are heard as their lower note."""
    scored = scores(takes([made_lick(92_000 + at, chords=True) for at in range(4)], human=False),
                    chords=True)  # fmt: skip
    assert sum(each.chords_right for each in scored) >= 0.9 * sum(each.chords for each in scored)


def test_alignment() -> None:
    named = Named()
    for take in played(True)[:5]:
        count_right(named, take)
        count_planted(named, take)
    off = np.abs(named.off)
    assert np.median(off) < 0.012
    assert np.percentile(off, 95) < 0.05
    assert named.false == 0
    assert named.planted
    assert named.sure >= named.planted - 1
