"""What a lick lives by: its draw and blow, or one note.

A lick lives by its breath if draw and blow take turns in a fixed pattern (a train) or if it is one
chord or split on one breath, in rhythm (a chug). It lives by a note if it is named for a blue note
that it has, or if one blue or bent note, or one that is marked `!`, is the only such note on which
it stays. That a recast should keep these is common practice, no source; how they are found is our
own choice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from formsheet.judge.fit import NoteFit
from formsheet.judge.handling import handling_findings
from formsheet.judge.verdicts import BLUE_NOTES, Verdict
from formsheet.judge.where import Placement
from formsheet.lesson.model import Facts, Kind, Lick, LickMark
from formsheet.music.chord import Chord
from formsheet.music.key import Key
from formsheet.music.tab import Breath, Shape, Tab
from formsheet.problems.problem import Problem, Severity
from formsheet.recast.played import played
from formsheet.recast.target import sounding, written_for

#: The most different marks of tab of a train of single notes: with more it is a melody.
MOST_PLACES = 2
#: The least number of notes of a chug.
LEAST_CHUGS = 3

#: What a lick may be named for, and its degree in semitones above the root. Common practice, no
#: source.
_NAMES: Mapping[str, int] = {
    r"(flat(ted)?|blue) (five|fifth)|b5": 6,
    r"(flat(ted)?|blue|minor) third|b3": 3,
    r"(flat(ted)?|blue) seven(th)?|b7": 10,
}


@dataclass(frozen=True, slots=True)
class BreathPattern:
    """The breath of the notes of a lick that lives by it, pick-up first."""

    breaths: tuple[Breath, ...]  # of all notes, or of all but the last, where that is free

    @property
    def turns(self) -> bool:
        """Whether draw and blow take turns; else it is a chug on one breath."""
        return len(set(self.breaths)) > 1

    def kept(self, tabs: Sequence[Tab]) -> bool:
        """Whether a recast keeps it, with draw and blow as they are or changed about."""
        breaths = tuple(tab.breath for tab in tabs[: len(self.breaths)])
        return breaths == self.breaths or self.swapped(tabs)

    def swapped(self, tabs: Sequence[Tab]) -> bool:
        """Whether draw and blow have changed places."""
        return tuple(tab.breath.other for tab in tabs[: len(self.breaths)]) == self.breaths

    @property
    def words(self) -> str:
        """The pattern in words, one period of it: "draw draw blow blow"."""
        if not self.turns:
            return self.breaths[0].word
        return " ".join(each.word for each in self.breaths[: period(self.breaths)])


@dataclass(frozen=True, slots=True)
class MadeBy:
    """The note that makes a lick."""

    degree: str  # over the chord of the lick: "b5"
    named: bool  # the lick is named for it; else it is what the lick rests on
    places: tuple[int, ...]  # the sounds that must keep it, by index, pick-up first


@dataclass(frozen=True)
class Character:
    """A lick over its own chords."""

    lick: Lick
    facts: Facts
    key: Key
    marks: tuple[LickMark, ...]  # its notes, pick-up first
    placement: Placement  # over its own chords, without the pick-up
    hard: int  # how many warnings of its handling it draws itself

    @property
    def tabs(self) -> tuple[Tab, ...]:
        """The tab of each note, pick-up first."""
        return tuple(mark.tab for mark in self.marks if mark.tab)

    @cached_property
    def fits(self) -> tuple[NoteFit | None, ...]:
        """The fit of each note; None in the pick-up."""
        notes = self.placement.notes
        return (*[None] * (len(self.marks) - len(notes)), *notes)

    @cached_property
    def stays(self) -> tuple[bool, ...]:
        """Whether each note stays."""
        return tuple(fit is not None and fit.stays for fit in self.fits)

    @cached_property
    def breath(self) -> BreathPattern | None:
        """The breath pattern by which it lives, if it does."""
        breaths = tuple(tab.breath for tab in self.tabs)
        many = [tab for tab in self.tabs if tab.shape is not Shape.SINGLE]
        if len(set(breaths)) < 2:
            chug = len(many) == len(self.tabs) >= LEAST_CHUGS and len(set(many)) == 1
            return BreathPattern(breaths) if chug else None
        places = {str(tab) for tab in self.tabs[:-1]}  # the last note may be where it comes to rest
        if 2 * len(many) < len(self.tabs) and len(places) > MOST_PLACES:
            return None
        patterns = (each for each in (breaths, breaths[:-1]) if period(each))
        return next(map(BreathPattern, patterns), None)

    @cached_property
    def made_by(self) -> MadeBy | None:
        """The note that makes it, if there is one."""
        return self._named_for() or self._rests_on()

    def _named_for(self) -> MadeBy | None:
        words = f"{self.lick.name.replace('-', ' ')} {self.lick.title}".lower()
        for pattern, semitones in _NAMES.items():
            places = [at for at in range(len(self.fits)) if semitones in self._above(at)]
            if places and re.search(rf"\b({pattern})\b", words):
                return self._made_by(semitones, places, named=True)
        return None

    def _rests_on(self) -> MadeBy | None:
        special = [at for at, fit in enumerate(self.fits) if fit and fit.stays and _special(fit)]
        above = {self._above(at) for at in special}
        if len(above) != 1:
            return None
        semitones = above.pop()
        return self._made_by(semitones[0], special, named=False) if len(semitones) == 1 else None

    def _made_by(self, semitones: int, places: Sequence[int], named: bool) -> MadeBy:
        stay = [at for at in places if self.stays[at]]
        fit = self.fits[places[0]]
        assert fit
        return MadeBy(fit.chord.degree(semitones), named, tuple(stay or places))

    def _above(self, at: int) -> tuple[int, ...]:
        """The tones of a note in semitones above the root of its chord; none in the pick-up."""
        fit = self.fits[at]
        if fit is None:
            return ()
        return tuple(self.key.above_root(midi, fit.chord) for midi in fit.note.midi)

    @property
    def ends_on_chord(self) -> bool:
        """Whether its last note is of its chord."""
        return bool(self.fits) and self.fits[-1] is not None and not self.fits[-1].verdict

    def keeps_note(self, at: int, midi: Sequence[int], chord: Chord) -> bool:
        """Whether pitches over a chord have the note that makes it: its degree, or its pitch."""
        fit = self.fits[at]
        assert fit
        wanted = [each for each in fit.note.midi if self._degree(each, fit.chord)]
        return any(self._degree(each, chord) or each in wanted for each in midi)

    def _degree(self, midi: int, chord: Chord) -> bool:
        assert self.made_by
        return self.key.degree(midi, chord) == self.made_by.degree


def _special(fit: NoteFit) -> bool:
    """Whether a note that stays gives a lick its colour: no chord tone, and blue, bent or `!`."""
    if not fit.verdict:
        return False
    blue = fit.verdict is Verdict.IDIOMATIC or any(
        fit.chord.degree(each) in fit.degrees for each in BLUE_NOTES
    )
    tab = fit.note.tab
    return blue or bool(tab.bend or tab.overbend) or fit.note.mark.deliberate


def character(lick: Lick, facts: Facts, key: Key, licks: Mapping[str, Lick]) -> Character:
    """A lick judged over the chords that it is written for."""
    marks = tuple(
        mark for bar in (lick.pickup, *lick.bars) for mark in bar if mark.kind is Kind.NOTE
    )
    chords = sounding(written_for(lick), facts.form)
    home = played(lick, chords, facts, key, licks)
    return Character(
        lick, facts, key, marks, home.placement, hard_places(handling_findings(home.tune))
    )


def hard_places(handling: Iterable[Problem]) -> int:
    """How many of the findings on handling are warnings."""
    return sum(each.severity > Severity.REMARK for each in handling)


def period(breaths: Sequence[Breath]) -> int:
    """The length of the shortest pattern that is repeated to the end, twice at least; 0: none."""
    for size in range(2, len(breaths) // 2 + 1):
        if all(breaths[at] is breaths[at - size] for at in range(size, len(breaths))):
            return size
    return 0
