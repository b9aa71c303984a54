"""Try a recast lick: played twice over its chords, checked, and put in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from math import floor

from formsheet.arrange.cost import strain
from formsheet.judge.effort import Move, move
from formsheet.judge.findings import fit_findings
from formsheet.judge.handling import handling_findings
from formsheet.judge.joins import PlayedMove, find_joins
from formsheet.judge.verdicts import Verdict
from formsheet.judge.where import Placement
from formsheet.lesson.model import Lick
from formsheet.music.form import FormBar
from formsheet.music.tab import Shape, Tab
from formsheet.problems.problem import Problem
from formsheet.recast.candidates import OFF_CONTOUR, OFF_SIZE, Recast, hurried, recasts
from formsheet.recast.character import Character, hard_places
from formsheet.recast.objections import objections
from formsheet.recast.played import Played, played
from formsheet.tune.timeline import Note, Tune

#: Costs in bends (`arrange.cost`). Our own choice, with reasons in DEVELOPERS.md.
WORSE = {Verdict.CHORD_TONE: 0, Verdict.IDIOMATIC: 1, Verdict.COLOUR: 3, Verdict.AVOID: 5}
IN_A_HURRY = 2  # for each half step of a bend that comes too fast to be made at ease
SWAPPED = 6  # a train on which draw and blow have changed places
BEND_TO_BEND = 3  # for each move from one bend to another, more than in the lick
ROOT_LOST = 5  # the lick ends on the root, the recast does not
BLOCK_MOVED = 2  # for each hole between blocks of the lick and those that are played, on average
UNLIKE = 3  # for each sound that comes again in the lick, and not in the recast
LESS_FIT = 20  # for all of the fit, see `Tried.less`: two bends for a tenth of the time
STRAIN = 4  # times the mean strain of its moves: 1 if each takes all the time available
OCTAVE_AWAY = 4
FAR_AWAY = 4  # for an octave more than a fifth
_A_FIFTH = 7
_OCTAVE = 12
#: The steps of `less` in which recasts are compared: a smaller difference is weighed with the rest.
STEP = Fraction(1, 5)


@dataclass(frozen=True)
class Tried:
    """A recast with the results of the checks."""

    recast: Recast
    home: Character  # the lick that it was made of
    played: Played

    @property
    def tune(self) -> Tune:
        """The recast played twice."""
        return self.played.tune

    @property
    def placement(self) -> Placement:
        """The fit of the first round."""
        return self.played.placement

    @cached_property
    def handling(self) -> Sequence[Problem]:
        """What `check` would say of how it is played."""
        return handling_findings(self.tune)

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """What `check` would say of its notes."""
        return (*fit_findings(self.tune, self.played.fits), *self.handling)

    @cached_property
    def warned(self) -> int:
        """The number of warnings, without as many of the handling as the lick draws itself."""
        return len(self.placement.clashes) + max(0, hard_places(self.handling) - self.home.hard)

    @property
    def tabs(self) -> tuple[Tab, ...]:
        """The tab of each note, pick-up first."""
        return tuple(choice.tab for choice in self.recast.choices)

    @property
    def breath_lost(self) -> bool:
        """Whether the lick lives by a breath pattern that the recast does not keep."""
        pattern = self.home.breath
        return pattern is not None and not pattern.kept(self.tabs)

    @property
    def swapped(self) -> bool:
        """Whether draw and blow of a train have changed places."""
        pattern = self.home.breath
        return pattern is not None and pattern.turns and pattern.swapped(self.tabs)

    @cached_property
    def note_lost(self) -> tuple[int, ...]:
        """The sounds, by index, that no longer have the note that makes the lick."""
        if self.home.made_by is None:
            return ()
        wanted, choices = self.recast.wanted, self.recast.choices
        return tuple(
            at
            for at in self.home.made_by.places
            if not self.home.keeps_note(at, choices[at].midi, wanted[at].new)
        )

    @cached_property
    def objections(self) -> tuple[str, ...]:
        """What a player would object to."""
        return tuple(objections(self.home, self.recast, self.played))

    @property
    def good(self) -> bool:
        """Whether nothing is wrong with it."""
        return not (self.warned or self.breath_lost or self.note_lost or self.objections)

    @property
    def less(self) -> Fraction:
        """By how much it fits worse than the lick over its own chords, 0 to 1; 0 if better."""
        return max(Fraction(0), self.home.placement.score - self.placement.score)

    @property
    def short(self) -> int:
        """The same in whole steps, see `STEP`."""
        return floor(self.less / STEP)

    @property
    def rank(self) -> tuple[int, int, int, int, int, float]:
        """A sort key, the best least: warnings, what is lost, objections, the fit, the ease.

        The measure of the fit is that of `Placement.merit`, but no recast need fit better than the
        lick does over its own chords.
        """
        lost = self.breath_lost + bool(self.note_lost)
        remarks = max(0, len(self.placement.remarks) - len(self.home.placement.remarks))
        return self.warned, lost, len(self.objections), self.short, remarks, self.against

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
        """What it changes and what it costs the player, in bends; smaller is better."""
        choices, far = self.recast.choices, abs(self.recast.shift)
        return (
            self.recast.away
            + sum(choice.cost.burden for choice in choices)
            + IN_A_HURRY * self._hurried
            + BEND_TO_BEND * max(0, _between_bends(self.tabs) - _between_bends(self.home.tabs))
            + OFF_CONTOUR * self.recast.contour
            + OFF_SIZE * self.recast.torn
            + self.recast.stretched
            + BLOCK_MOVED * self._block_moved
            + UNLIKE * self.recast.unlike
            + SWAPPED * self.swapped
            + self._worse
            + ROOT_LOST * self._root_lost
            + LESS_FIT * float(self.less)
            + STRAIN * self._strain
            + (OCTAVE_AWAY * far + FAR_AWAY * max(0, far - _A_FIFTH)) / _OCTAVE
        )

    @property
    def _hurried(self) -> int:
        """Half steps of bends that come too fast, without those of the lick itself."""
        return sum(
            choice.tab.bend
            for wanted, choice in zip(self.recast.wanted, self.recast.choices, strict=True)
            if choice.tab != wanted.mark.tab
            and hurried(choice.tab, wanted.sound.gap, self.home.facts)
        )

    @property
    def _block_moved(self) -> float:
        """How many holes blocks are moved, on average."""
        pairs = zip(self.home.tabs, self.recast.choices, strict=True)
        moved = [
            abs(choice.tab.holes[0] - old.holes[0])
            for old, choice in pairs
            if old.shape is choice.tab.shape is Shape.BLOCK
        ]
        return sum(moved) / len(moved) if moved else 0.0

    @property
    def _worse(self) -> int:
        """By how much notes that stay fit worse than in the lick."""
        pairs = zip(self.home.placement.notes, self.placement.notes, strict=True)
        return sum(
            max(0, WORSE[new.verdict] - WORSE[old.verdict]) for old, new in pairs if new.stays
        )

    @property
    def _root_lost(self) -> bool:
        """Whether the lick ends on the root of its chord, and the recast does not."""
        if not self.recast.wanted:
            return False
        wanted, choice, key = self.recast.wanted[-1], self.recast.choices[-1], self.home.key
        return not key.above_root(wanted.sound.midi[0], wanted.old) and all(
            key.above_root(midi, wanted.new) for midi in choice.midi
        )

    @property
    def _strain(self) -> float:
        """The mean strain of its moves, including the one back to its start."""
        notes = self.tune.notes
        costs = [strain(a.tab, b.tab, b.start - a.start) for a, b in pairwise(notes)]
        return sum(costs) / len(costs) if costs else 0.0


def _between_bends(tabs: Sequence[Tab]) -> int:
    """The number of moves from one bend to another."""
    return sum(bool(a.bend and b.bend and a != b) for a, b in pairwise(tabs))


def tried_recasts(
    home: Character, new: Lick, chords: Sequence[FormBar], licks: Mapping[str, Lick],
    overbends: bool = False,
) -> list[Tried]:  # fmt: skip
    """Every recast of a lick under the name of `new`, tried and sorted, best first."""
    found = [
        Tried(each, home, played(each.lick, chords, home.facts, home.key, licks))
        for each in recasts(home, new, chords, overbends)
    ]
    return sorted(found, key=lambda tried: tried.rank)
