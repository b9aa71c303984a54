"""The demo lessons too fast, without their rests, and for a beginner: something is said of each.

What is expected is reckoned here once more, plainly.
"""

from __future__ import annotations

import pytest

from formsheet.judge.breath import flow
from formsheet.judge.joins import find_moves
from formsheet.judge.level import LIMITS
from formsheet.music.tab import Breath
from formsheet.tune.timeline import Tune
from formsheet.vocabulary.facts import Level
from tests.judge.planted_effort import PLANTS, demo_tune, said, said_besides
from tests.lessons import NAMES

every_demo = pytest.mark.parametrize("name", NAMES)


@every_demo
def test_too_fast(name: str) -> None:
    """Each lick and each join with a move that is easy under the level's share is spoken of."""
    tune = PLANTS["1.6 times as fast"](demo_tune(name))
    slowest = LIMITS[tune.lesson.facts.level].easy_share * float(tune.lesson.facts.tempo)
    hard = {
        (each.first_lick.name, each.second_lick.name, each.joins)
        for each in find_moves(tune)
        if each.easy_tempo < slowest
    }
    codes = [each.code for each in said_besides(name, "1.6 times as fast")]
    assert codes.count("move-too-fast") == len(hard)


def test_too_fast_is_said_of_some() -> None:
    spoken_of = [name for name in NAMES if said_besides(name, "1.6 times as fast")]
    assert {"gantry-crane", "two-lamps-on-mill-lane"} <= set(spoken_of)
    assert len(spoken_of) < len(NAMES)


def most_air(tune: Tune) -> float:
    """The most air in or out of the chest, without any rest."""
    chest, found = 0.0, [0.0]
    for note in tune.notes:
        air = flow(note.midi) * (note.end_s - note.start_s)
        chest += air if note.tab.breath is Breath.DRAW else -air
        found.append(abs(chest))
    return max(found)


@every_demo
@pytest.mark.parametrize("plant", ["rests held", "rests struck"])
def test_rests_filled(name: str, plant: str) -> None:
    """Where the lungs cannot hold what adds up, it is said, in the bar and with the breath."""
    tune = PLANTS[plant](demo_tune(name))
    gaps = zip(tune.notes, tune.notes[1:], strict=False)
    assert all(first.start_s - last.end_s < 1e-6 for last, first in gaps)
    codes = [each.code for each in said(tune)]
    limit = LIMITS[tune.lesson.facts.level].air
    assert ("breath-runs-out" in codes) is (most_air(tune) > limit)
    assert "breath-runs-out" not in [each.code for each in said(demo_tune(name))]


def test_rests_filled_are_missed_in_most() -> None:
    missed = [name for name in NAMES if said_besides(name, "rests held")]
    assert len(missed) > len(NAMES) / 2


@every_demo
def test_for_a_beginner(name: str) -> None:
    tune = demo_tune(name)
    codes = {each.code for each in said_besides(name, "for a beginner")}
    if tune.lesson.facts.level is Level.BEGINNER:
        assert codes == set()
        return
    tabs = {note.tab for note in tune.notes}
    top = {tab for tab in tabs if tab.bend and tab.holes[0] >= 8}
    assert ("bend-hard" in codes) is any(tab.bend > 1 for tab in tabs - top)
    assert ("bend-high" in codes) is bool(top)
    assert ("overbend-taught" in codes) is any(tab.overbend for tab in tabs)
    assert ("licks-many" in codes) is (len({bar.lick.name for bar in tune.bars if bar.lick}) > 5)
    assert codes
