"""What is said of the ends of choruses, with what to write or to play instead."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from functools import cached_property
from itertools import islice

from formsheet.judge.alternatives import Alternatives, Offers
from formsheet.judge.breathing import breath_findings
from formsheet.judge.ending import (
    Ends,
    Said,
    above_root,
    comes_home,
    ends,
    five_tones,
    home_tones,
)
from formsheet.judge.feel import feel_findings
from formsheet.judge.findings import Reported, reported, sounding_of
from formsheet.judge.fit import BarFit, judge_fit
from formsheet.judge.handling import handling_findings
from formsheet.judge.joins import pairs_of
from formsheet.judge.last_time import home_chord, on_home
from formsheet.judge.offers import MOST_OFFERS
from formsheet.judge.use import use_findings
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Bar, Chorus, Tune

_AWAY = "away"  # the trouble of a tune that does not come home


def said(tune: Tune, fits: Sequence[BarFit], found: Ends) -> Said:
    """The findings about the ends of choruses. Each written note is reported once."""
    teller = _Teller(tune, fits, found)
    notes = [note for _, note in found.off_five]
    if found.note:
        notes.append(found.note)
    done = frozenset((note.fit.note.played.number, note.at) for note in notes)
    return Said([*teller.turnarounds(), *teller.end()], done)


def troubles(tune: Tune, fits: Sequence[BarFit] | None = None) -> Iterator[Hashable]:
    """All that is to be said of a tune, errors aside, by kind and place; the cheapest first.

    Of breath without the place: a change anywhere in the tune moves it. `fits`: if they are known.
    """
    for problem in (*use_findings(tune), *feel_findings(tune)):
        yield (str(problem.code), *problem.span.place)
    fits = judge_fit(tune) if fits is None else fits
    found = ends(tune, fits)
    if found.bar or found.note:
        yield _AWAY
    for _, note in found.off_five:
        yield _off(note)
    for each in reported(fits):
        yield (each.heard, each.stretch.chord, *each.fit.note.mark.span.place)
    pairs = pairs_of(tune)
    for problem in handling_findings(tune, pairs):
        yield (str(problem.code), *problem.span.place)
    for problem in breath_findings(tune, pairs):
        yield (str(problem.code), problem.severity)


def _off(note: Reported) -> Hashable:
    """The trouble of a note that ends a turnaround and is not of V."""
    return ("turnaround", *note.fit.note.mark.span.place)


class _Teller:
    """Words the findings of one tune."""

    def __init__(self, tune: Tune, fits: Sequence[BarFit], found: Ends) -> None:
        self.tune = tune
        self.fits = fits
        self.found = found
        self.alternatives = Alternatives(tune)

    @cached_property
    def _before(self) -> frozenset[Hashable]:
        """All that is to be said of the tune as it is."""
        return frozenset(troubles(self.tune, self.fits))

    def turnarounds(self) -> Iterator[Problem]:
        """Last notes over V that are not of V; but for one that only a last time ends on."""
        places: dict[object, list[tuple[Chorus, Reported]]] = {}
        for chorus, note in self.found.off_five:
            places.setdefault(note.fit.note.mark.span.place, []).append((chorus, note))
        last = self.tune.choruses[-1].number
        for group in places.values():
            if not (self.found.bar and all(chorus.number == last for chorus, _ in group)):
                yield self._turnaround([note for _, note in group])

    def _turnaround(self, group: Sequence[Reported]) -> Problem:
        first, key = group[0], self.tune.lesson.key
        note, chord = first.fit.note, first.stretch.chord
        offers, edit = self.alternatives.instead(
            [each.fit.note for each in group], chord, five_tones(chord), self._mends(_off(first))
        )
        return kinds.TurnaroundOffFive(
            note.mark.span,
            sounding=sounding_of(self.tune, group, self.alternatives.judge.blue),
            key_note=all(midi % 12 == key.pitch_class for midi in note.midi),
            end=self._if_the_end(first),
            offers=offers,
            edit=edit,
        )

    def _if_the_end(self, first: Reported) -> kinds.LastTime | None:
        """How to end the tune with the note that its only chorus ends on, if that is at home."""
        home, midi = home_chord(self.tune.lesson), first.fit.note.midi
        only = len(self.tune.choruses) == 1 and not self.found.bar
        if not (only and comes_home(above_root(self.tune, midi, home), home)):
            return None
        return on_home(self.tune, self._mends(_off(first)))

    def end(self) -> Iterator[Problem]:
        """The tune that does not come home."""
        tune, bar, last = self.tune, self.found.bar, self.found.note
        choruses = len(tune.choruses)
        tonic = tune.lesson.key.tonic
        if bar:
            yield kinds.TuneEndsAway(
                tune.lesson.plays[-1].span, bar=bar.number,
                letter=bar.chords[-1][1].name(tonic), choruses=choruses, sounding=None,
                end=on_home(tune, self._mends(_AWAY), same_lick=self._alone(bar)),
                offers={}, edit=None,
            )  # fmt: skip
        if last:
            chord = last.stretch.chord
            offers, edit = self._home_notes(last)
            yield kinds.TuneEndsAway(
                last.fit.note.mark.span, bar=tune.bars[last.stretch.bar].number,
                letter=chord.name(tonic), choruses=choruses,
                sounding=sounding_of(tune, [last], self.alternatives.judge.blue),
                end=None, offers=offers, edit=edit,
            )  # fmt: skip

    def _alone(self, bar: Bar) -> bool:
        """Whether nothing is said of a turnaround that is the lick of this bar."""
        off = {
            self.tune.lick_of(note.fit.note)
            for chorus, note in self.found.off_five
            if chorus.number != bar.chorus
        }
        return bar.lick is None or bar.lick.name not in off

    def _home_notes(self, last: Reported) -> Offers:
        """Notes to end on: the key note first, then the other home tones."""
        chord, mends = last.stretch.chord, self._mends(_AWAY)
        notes = [last.fit.note]
        roots = self.alternatives.instead(notes, chord, {0}, mends)
        others = self.alternatives.instead(notes, chord, home_tones(chord) - {0}, mends)
        words = {**roots.words, **others.words} if roots.edit else {**others.words, **roots.words}
        return Offers(dict(islice(words.items(), MOST_OFFERS)), roots.edit or others.edit)

    def _mends(self, trouble: Hashable) -> Callable[[Tune], bool]:
        """Whether a changed tune is without a trouble, and has none that this one has not."""

        def mends(tune: Tune) -> bool:
            return all(each != trouble and each in self._before for each in troubles(tune))

        return mends
