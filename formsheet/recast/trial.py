"""A recast lick tried out: played twice over its chords, judged, and marked for the ranking."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from formsheet.arrange.cost import strain
from formsheet.judge.effort import Move, move
from formsheet.judge.fit import BarFit, Verdict
from formsheet.judge.joins import Join, find_joins
from formsheet.judge.where import Placement
from formsheet.lesson.model import BarsPlaced, Facts, Lesson, Lick, Placed, Play
from formsheet.music.form import Form, FormBar
from formsheet.music.key import Key
from formsheet.problems.problem import Problem, Severity
from formsheet.recast.candidates import OFF_CONTOUR, OFF_SIZE, Recast, recasts
from formsheet.stages import judged
from formsheet.tune.assemble import assemble
from formsheet.tune.timeline import Note, Tune

#: What speaks against a recast, in bends (`arrange.cost`). Our own choice, reasons in
#: DEVELOPERS.md.
CLASH = 10
WARNING = 4
BLUE_LANDING = 1
OTHER_LANDING = 3
STRAIN = 4  # of its moves, on average: 1 where each takes all the time that it has
OCTAVE_AWAY = 4

_LANDINGS = {
    Verdict.CHORD_TONE: 0,
    Verdict.BLUE_NOTE: BLUE_LANDING,
    Verdict.COLOUR: OTHER_LANDING,
    Verdict.PASSING: OTHER_LANDING,
    Verdict.CLASH: 0,  # counted as a clash
}
_TWICE = 2
_OCTAVE = 12


@dataclass(frozen=True)
class Tried:
    """A recast with what is to be said of it."""

    recast: Recast
    tune: Tune  # the lick twice
    placement: Placement  # the fit of the first time
    problems: tuple[Problem, ...]

    @property
    def warnings(self) -> list[Problem]:
        """What a teacher would want to know before printing."""
        return [each for each in self.problems if each.severity > Severity.REMARK]

    @cached_property
    def loop(self) -> Join | None:
        """From its last note to its own first one; None of one without a note."""
        return next(iter(find_joins(self.tune)), None)

    @cached_property
    def inner(self) -> tuple[Note, Note, Move, float] | None:
        """Its hardest move inside: the notes, the move, the tempo up to which it is easy."""
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
        """What speaks against it, in bends; of two the better is the smaller."""
        return (
            CLASH * len(self.placement.clashes)
            + WARNING * len(self.warnings)
            + sum(_LANDINGS[fit.verdict] for fit in self.placement.notes if fit.lands)
            + OFF_CONTOUR * self.recast.contour
            + OFF_SIZE * self.recast.torn
            + self.recast.away
            + sum(choice.cost.burden for choice in self.recast.choices)
            + STRAIN * self._strain
            + OCTAVE_AWAY * abs(self.recast.shift) / _OCTAVE
        )

    @property
    def _strain(self) -> float:
        """The moves' mean cost, the one back to its own start included."""
        notes = self.tune.notes
        costs = [strain(a.tab, b.tab, b.start - a.start) for a, b in pairwise(notes)]
        return sum(costs) / len(costs) if costs else 0.0


def tried_recasts(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, overbends: bool = False
) -> list[Tried]:
    """Every recast of a lick, tried out, the best first."""
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
    fits, found = judged(tune)
    once: tuple[BarFit, ...] = tuple(fits[: len(bars)])
    numbers = tuple(range(1, len(bars) + 1))
    return Tried(recast, tune, Placement(lick, bars, numbers, once), tuple(found))
