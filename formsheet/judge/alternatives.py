"""What to play instead: the nearest chord tones that the student can be asked for.

An offer is a tone of the chord on this harp, within the bends of the level, reached and left with
ease at the start tempo. The nearest in pitch comes first, a half step in the same hole on the same
breath before all others; where a beginner's tune has no bend yet, natural notes come before bends.
Of two tabs for a pitch (2 draw, 3 blow) the one is offered that the line makes easier. A note that
the tuning changed from richter is meant, and nothing is offered for it. The edit is tried on the
tune: it removes the clash and brings no other warning. Our own choice.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from functools import cached_property
from typing import NamedTuple

from formsheet.judge.effort import move
from formsheet.judge.fit import Heard, Judge
from formsheet.judge.handling import handling_findings
from formsheet.judge.harmony import pitch_classes, sounding_name
from formsheet.judge.joins import pairs_of
from formsheet.judge.ladder import first_tempo
from formsheet.judge.level import LIMITS
from formsheet.judge.offers import MOST_OFFERS, NEAR, chords_near, singles_for
from formsheet.judge.verdicts import Verdict
from formsheet.music.chord import Chord
from formsheet.music.tab import Breath, Shape, Tab
from formsheet.music.tunings import RICHTER
from formsheet.problems.edits import together
from formsheet.problems.problem import Edit, Severity
from formsheet.source import Span
from formsheet.tune.timeline import Note, PlayedMark, Tune
from formsheet.vocabulary.facts import Level

#: Limit for the notes that are judged again to try the offers of one tune: enough for any lesson,
#: and less than a second of work. Beyond it offers are made without an edit.
MOST_TRIED = 30_000
_TAB = re.compile(r"[0-9]+o?[bdBD]['’′´`]*")


class Offers(NamedTuple):
    """What may be played instead of a note."""

    words: Mapping[str, str]  # tab -> what it is over the chord: "Bb, the b7"
    edit: Edit | None = None  # to the first of them, in every place of the cause


class Alternatives:
    """Finds what to play instead of a note of a tune."""

    def __init__(self, tune: Tune) -> None:
        self.tune = tune
        self.judge = Judge(tune)
        self.harp = tune.lesson.facts.harp
        self.limits = LIMITS[tune.lesson.facts.level]
        self.left = MOST_TRIED

    @cached_property
    def _places(self) -> Mapping[object, list[int]]:
        """The indices of the notes that each written mark sounds."""
        found: dict[object, list[int]] = {}
        for index, note in enumerate(self.tune.notes):
            found.setdefault(note.mark.span.place, []).append(index)
        return found

    @cached_property
    def _unbent(self) -> bool:
        """Whether it is a beginner's tune without any bend."""
        beginner = self.tune.lesson.facts.level is Level.BEGINNER
        return beginner and not any(note.tab.bend for note in self.tune.notes)

    @cached_property
    def _slower(self) -> float:
        """How many times longer everything takes at the start tempo."""
        facts = self.tune.lesson.facts
        return float(facts.tempo / first_tempo(pairs_of(self.tune), facts))

    @cached_property
    def _warnings(self) -> set[tuple[object, ...]]:
        """The warnings about the handling of the tune as it is."""
        return self._handling(self.tune)

    def instead(
        self,
        notes: Sequence[Note],
        chord: Chord,
        tones: Set[int] | None = None,
        accepts: Callable[[Tune], bool] | None = None,
    ) -> Offers:
        """Chord tones for notes of one tab over a chord, in all places where they are written.

        `tones`: other tones than those of the chord, in semitones above its root. `accepts`: the
        edit is offered only if this is true of the tune with the other notes.
        """
        first = notes[0]
        if self._retuned(first.tab):
            return Offers({})
        places = {note.mark.span.place: note for note in notes}
        indices = sorted(index for place in places for index in self._places[place])
        at = next(i for i in indices if self.tune.notes[i].played.number == first.played.number)
        classes = pitch_classes(chord, self.tune.lesson.key, tones)
        near = [tab for tab in self._near(at, classes) if self._within_reach(at, tab)]
        good, edit = [], None
        for tab in near:
            if self._fits_everywhere(indices, tab):
                good.append(tab)
                if edit is None and self._is_no_worse(indices, tab, accepts):
                    edit = _edit([note.mark.span for note in places.values()], tab)
                    if edit:
                        good.insert(0, good.pop())
            if edit and len(good) >= MOST_OFFERS:
                break
        words = {str(tab): self._named(tab, chord) for tab in good[:MOST_OFFERS]}
        return Offers(words, edit)

    def by_step(self, note: Note, chord: Chord) -> list[str]:
        """Tab of the chord tones a half step from a single note; none for a block."""
        if note.tab.shape is not Shape.SINGLE:
            return []
        indices = self._places[note.mark.span.place]
        at = next(i for i in indices if self.tune.notes[i].played.number == note.played.number)
        (midi,), tones = note.midi, pitch_classes(chord, self.tune.lesson.key)
        near = self._single_notes(at, midi, tones)
        return [str(tab) for tab in near if abs(self.harp.pitches(tab)[0] - midi) == 1]

    def _retuned(self, tab: Tab) -> bool:
        """Whether a reed of the note differs from the one of the usual tuning."""
        tuning = self.harp.tuning
        own, usual = (
            (tuning.blow, RICHTER.blow)
            if tab.breath is Breath.BLOW
            else (tuning.draw, RICHTER.draw)
        )
        return any(own[hole - 1] != usual[hole - 1] for hole in tab.holes)

    def _near(self, at: int, tones: frozenset[int]) -> list[Tab]:
        """Tones near a note, or blocks and splits of them near a block; best first.

        `tones` are pitch classes, 0 to 11.
        """
        note = self.tune.notes[at]
        if note.tab.shape is Shape.SINGLE:
            return self._single_notes(at, note.midi[0], tones)
        return [
            *chords_near(note.tab, self.harp, tones),
            *self._single_notes(at, note.midi[-1], tones),
        ]

    def _single_notes(self, at: int, asked: int, tones: frozenset[int]) -> list[Tab]:
        old = self.tune.notes[at].tab
        best: dict[int, tuple[tuple[object, ...], Tab]] = {}
        for tab, midi in singles_for(self.tune.lesson):
            apart = abs(midi - asked)
            if midi % 12 not in tones or apart > NEAR or tab == old:
                continue
            same = (tab.holes, tab.breath) == (old.holes, old.breath) and apart == 1
            bends = self._unbent and tab.bend > 0
            rank = (bends, not same, apart, self._effort(at, tab), tab.bend)
            if midi not in best or rank < best[midi][0]:
                best[midi] = rank, tab
        return [tab for _, tab in sorted(best.values(), key=lambda each: each[0])]

    def _moves(self, at: int, tab: Tab) -> Iterator[tuple[float, float]]:
        """The moves to and from a tab in place of a note: seconds they take, seconds there are."""
        notes = self.tune.notes
        for one, other in ((at - 1, at), (at, at + 1)):
            if one >= 0 and other < len(notes):
                first = tab if one == at else notes[one].tab
                second = tab if other == at else notes[other].tab
                gap = notes[other].start_s - notes[one].start_s
                yield move(first, second).seconds, gap * self._slower

    def _effort(self, at: int, tab: Tab) -> float:
        """Seconds that the moves to and from a tab take, in place of a note."""
        return round(sum(seconds for seconds, _ in self._moves(at, tab)), 6)

    def _within_reach(self, at: int, tab: Tab) -> bool:
        """Whether a tab is easy at the start tempo, or no harder than the note itself."""
        easy = all(seconds <= gap for seconds, gap in self._moves(at, tab))
        return easy or self._effort(at, tab) <= self._effort(at, self.tune.notes[at].tab)

    def _fits_everywhere(self, indices: Iterable[int], tab: Tab) -> bool:
        """Whether a tab is nowhere to be avoided, over any chord that its mark is played over."""
        midi = self.harp.pitches(tab)
        chords = {self.tune.bars[n.bar].chord_at(n.onset) for n in map(self._note, indices)}
        return all(self.judge.verdict(midi, chord) is not Verdict.AVOID for chord in chords)

    def _note(self, index: int) -> Note:
        return self.tune.notes[index]

    def _is_no_worse(
        self, indices: Sequence[int], tab: Tab, accepts: Callable[[Tune], bool] | None
    ) -> bool:
        """Whether a tab in these places brings no other warning; False if too many were tried."""
        self.left -= len(self.tune.notes)
        if self.left < 0:
            return False
        midi, notes = self.harp.pitches(tab), list(self.tune.notes)
        for index in indices:
            notes[index] = notes[index]._replace(
                tab=tab, midi=midi, played=_retabbed(notes[index], tab)
            )
        changed = Judge(self.tune, notes, self.judge.blue)
        changes = set(indices)
        for index in {near for i in indices for near in (i - 1, i, i + 1)}:
            if not 0 <= index < len(notes) or Heard.CLASHES not in changed.note(index).heard:
                continue
            if index in changes or Heard.CLASHES not in self.judge.note(index).heard:
                return False
        tune = self.tune._replace(notes=tuple(notes))
        return self._handling(tune) <= self._warnings and (accepts is None or accepts(tune))

    def _handling(self, tune: Tune) -> set[tuple[object, ...]]:
        """The warnings of the checks of handling, by kind and place."""
        return {
            (problem.code, problem.span.place)
            for problem in handling_findings(tune)
            if problem.severity is not Severity.REMARK
        }

    def _named(self, tab: Tab, chord: Chord) -> str:
        """What a tab is over a chord: "Bb, the b7"; of a block what it sounds: "octave D"."""
        key = self.tune.lesson.key
        if tab.shape is not Shape.SINGLE:
            return sounding_name(tab, self.harp, key, chord)
        (midi,) = self.harp.pitches(tab)
        degree = key.degree(midi, chord)
        return f"{key.spell(midi % 12, chord)}, the {'root' if degree == 'R' else degree}"


def _retabbed(note: Note, tab: Tab) -> PlayedMark:
    """The played mark of a note with another tab."""
    return note.played._replace(mark=note.mark._replace(tab=tab))


def _edit(spans: Sequence[Span], new: Tab) -> Edit | None:
    """A tab in place of another in all these marks: one edit, what lies between is kept.

    None where a mark is not written as expected.
    """
    changes = []
    for span in spans:
        written = _TAB.match(span.text)
        if span.source is not spans[0].source or written is None:
            return None
        changes.append((span._replace(end=span.start + written.end()), str(new)))
    return together(changes)
