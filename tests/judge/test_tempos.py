"""The judgement of effort and breath over all tempos: nothing jumps, nothing comes and goes.

Each demo lesson is judged at every tempo from 40 to 208 beats a minute.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import NamedTuple

import pytest

from formsheet.judge.breath import judge_breath
from formsheet.judge.breathing import breath_findings
from formsheet.judge.handling import handling_findings
from formsheet.judge.joins import find_moves
from formsheet.judge.ladder import easiest_start
from formsheet.tune.assemble import tune_of
from formsheet.tune.timeline import Tune
from tests.lessons import NAMES, demo

TEMPOS = range(40, 209)
#: The most by which a figure may change from one tempo to the next. Our own choice.
MOST = 1.05
#: What is said of notes that last too long; the faster the tune, the shorter they are.
OF_SLOW_TEMPOS = {"bent-long", "breath-runs-out", "chorus-without-breath"}

every_demo = pytest.mark.parametrize("name", NAMES)


class Judged(NamedTuple):
    """A tune at one tempo."""

    start: float  # beats a minute at which the hardest move is easy, before rounding
    easy: Mapping[object, float]  # the same of each move
    peak: float  # seconds of air
    said: frozenset[str]  # the licks of which something is said


@cache
def judged(name: str) -> list[Judged]:
    """A demo lesson at every tempo."""
    return [judged_at(name, tempo) for tempo in TEMPOS]


def judged_at(name: str, tempo: int) -> Judged:
    known = demo(name).tune
    assert known
    facts = known.lesson.facts._replace(tempo=Fraction(tempo), learn=None)
    tune = tune_of(known.lesson._replace(facts=facts), known.bars, known.choruses)
    moves = find_moves(tune)
    easy: dict[object, float] = {
        (each.first_lick.name, each.second_lick.name, each.last.tab, each.first.tab, each.joins,
         round(each.beats, 6)): each.easy_tempo
        for each in moves
    }  # fmt: skip
    peak = judge_breath(tune, tempo).peak
    return Judged(easiest_start(moves, facts.tempo), easy, peak, frozenset(said(tune)))


def said(tune: Tune) -> Iterator[str]:
    """The licks of which something is said that is not a matter of a slow tempo.

    Of a join, the lick that it leads into. In which words may change: a slide that is a little too
    fast may be a move that is far too fast at a faster tempo.
    """
    licks = {note.mark.span: tune.lick_of(note) for note in tune.notes}
    problems = [*handling_findings(tune), *breath_findings(tune)]
    for problem in problems:
        if problem.code not in OF_SLOW_TEMPOS:
            yield licks.get(problem.span, "")


def changes_little(before: float, after: float) -> bool:
    return before / MOST <= after <= before * MOST


@every_demo
def test_what_is_said_of_effort_is_said_at_every_faster_tempo(name: str) -> None:
    for tempo, (slower, faster) in zip(TEMPOS, pairwise(judged(name)), strict=False):
        assert slower.said <= faster.said, f"from {tempo} to {tempo + 1}"


@every_demo
def test_no_figure_jumps_from_one_tempo_to_the_next(name: str) -> None:
    for slower, faster in pairwise(judged(name)):
        assert changes_little(slower.start, faster.start)
        assert changes_little(slower.peak, faster.peak)
        assert slower.easy.keys() == faster.easy.keys()
        assert all(changes_little(slower.easy[move], faster.easy[move]) for move in slower.easy)


def test_something_is_said_at_the_fastest() -> None:
    """Without that the first test would be empty."""
    assert sum(len(judged(name)[-1].said) for name in NAMES) > len(NAMES)
    assert all(judged(name)[0].said <= judged(name)[-1].said for name in NAMES)
