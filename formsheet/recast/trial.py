"""Try a recast lick: played twice over its chords, checked, and scored for ranking."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from formsheet.arrange.cost import strain
from formsheet.judge.effort import Move, move
from formsheet.judge.fit import BarFit
from formsheet.judge.joins import PlayedMove, find_joins
from formsheet.judge.verdicts import Verdict
from formsheet.judge.where import Placement
from formsheet.lesson.model import BarsPlaced, Facts, Lesson, Lick, Placed, Play
from formsheet.music.form import Form, FormBar
from formsheet.music.key import Key
from formsheet.problems.problem import Problem, Severity
from formsheet.recast.candidates import OFF_CONTOUR, OFF_SIZE, Recast, recasts
from formsheet.stages import judged
from formsheet.tune.assemble import assemble
from formsheet.tune.timeline import Note, Tune

#: Costs in bends (`arrange.cost`). Our own choice, with reasons in DEVELOPERS.md.
CLASH = 10
WARNING = 4
BLUE_LANDING = 1
OTHER_LANDING = 3
STRAIN = 4  # times the mean strain of its moves: 1 if each takes all the time available
OCTAVE_AWAY = 4

_LANDINGS = {
    Verdict.CHORD_TONE: 0,
    Verdict.IDIOMATIC: BLUE_LANDING,
    Verdict.COLOUR: OTHER_LANDING,
    Verdict.AVOID: 0,  # counted as a clash
}
_TWICE = 2
_OCTAVE = 12


@dataclass(frozen=True)
class Tried:
    """A recast with the results of the checks."""

    recast: Recast
    tune: Tune  # the lick played twice
    placement: Placement  # the fit of the first round
    problems: tuple[Problem, ...]

    @property
    def warnings(self) -> list[Problem]:
        """Its problems with severity warning."""
        return [each for each in self.problems if each.severity > Severity.REMARK]

    @cached_property
    def loop(self) -> PlayedMove | None:
        """The join from its last note to its first; None if it has no notes."""
        return next(iter(find_joins(self.tune)), None)

    @cached_property
    def inner(self) -> tuple[Note, Note, Move, float] | None:
        """Its hardest inner move: both notes, the move, the tempo up to which it is easy."""
        bars = len(self.recast.chords)
        tempo = float(self.tune.lesson.facts.tempo)
        found = []
        for first, second in pairwise(note for note in self.tune.notes if note.bar < bars):
            moves = move(first.tab, second.tab)
            beats = (second.start_s - first.start_s) * tempo / 60
            found.append((first, second, moves, 60 * beats / moves.seconds))
        return min(found, key=lambda each: each[3], default=None)

    @cached_property
    def against(self) -> float:
        """The total cost in bends; smaller is better."""
        return (
            CLASH * len(self.placement.clashes)
            + WARNING * len(self.warnings)
            + sum(_LANDINGS[fit.verdict] for fit in self.placement.notes if fit.stays)
            + OFF_CONTOUR * self.recast.contour
            + OFF_SIZE * self.recast.torn
            + self.recast.away
            + sum(choice.cost.burden for choice in self.recast.choices)
            + STRAIN * self._strain
            + OCTAVE_AWAY * abs(self.recast.shift) / _OCTAVE
        )

    @property
    def _strain(self) -> float:
        """The mean strain of its moves, including the one back to its start."""
        notes = self.tune.notes
        costs = [strain(a.tab, b.tab, b.start - a.start) for a, b in pairwise(notes)]
        return sum(costs) / len(costs) if costs else 0.0


def tried_recasts(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, overbends: bool = False
) -> list[Tried]:
    """Every recast of a lick, tried and sorted, best first."""
    found = (_tried(each, facts, key) for each in recasts(lick, chords, facts, key, overbends))
    return sorted(found, key=lambda tried: tried.against)


def _tried(recast: Recast, facts: Facts, key: Key) -> Tried:
    lick, bars = replace(recast.lick, pickup=()), recast.chords
    form = Form("trial", (bars,))
    span = lick.span
    placed = BarsPlaced(1, len(bars), (Placed(lick.name, False, 1, span),), False, span)
    play = Play("", _TWICE, (), (placed,), span)
    lesson = Lesson(replace(facts, form=form), form, key, {lick.name: lick}, (play,), span)
    tune, problems = assemble(lesson)
    assert tune, problems
    fits, found = judged(tune, whole=False)
    once: tuple[BarFit, ...] = tuple(fits[: len(bars)])
    numbers = tuple(range(1, len(bars) + 1))
    return Tried(recast, tune, Placement(lick, bars, numbers, once), tuple(found))
