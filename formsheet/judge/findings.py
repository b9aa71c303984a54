"""Findings about the fit: each cause reported once, with all bars in which it is heard."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from formsheet.judge.fit import BarFit, Heard, NoteFit, Stretch
from formsheet.judge.harmony import sounding_name
from formsheet.judge.verdicts import tone_verdict
from formsheet.music.degree import spelled
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Tune

if TYPE_CHECKING:
    from formsheet.judge.alternatives import Alternatives

FLAT_FIVE = "b5"
_REPORTED = frozenset({Heard.CLASHES, Heard.SUSPENDED, Heard.FLAT_FIVE, Heard.KEY_NOTE})


class Reported(NamedTuple):
    """A note that is worth a word, over one chord."""

    fit: NoteFit
    at: int  # index of the stretch

    @property
    def stretch(self) -> Stretch:
        """Where it sounds."""
        return self.fit.stretches[self.at]

    @property
    def heard(self) -> Heard:
        """How it is heard there."""
        return self.fit.heard[self.at]


def reported(fits: Sequence[BarFit]) -> Iterator[Reported]:
    """Every note that is worth a word, once for each chord over which it is."""
    for bar_fit in fits:
        for fit in bar_fit.notes:
            for at, heard in enumerate(fit.heard):
                if heard in _REPORTED:
                    yield Reported(fit, at)


def fit_findings(
    tune: Tune, fits: Sequence[BarFit], said: Set[tuple[int | None, int]] = frozenset()
) -> list[Problem]:
    """What is worth saying of the notes, see `fit.py`: warnings of clashes, remarks on the rest.

    A note marked `!` gets a remark in any case. One cause is one tab of a lick over one chord; the
    key note over V is one cause in all licks. `said`: the notes, by number and stretch, of which
    nothing is to be said.
    """
    causes: dict[tuple[object, ...], list[Reported]] = {}
    for each in reported(fits):
        if (each.fit.note.played.number, each.at) not in said:
            causes.setdefault(_cause(tune, each), []).append(each)
    if not causes:
        return []
    from formsheet.judge.alternatives import Alternatives  # most lessons have no findings

    alternatives = Alternatives(tune)
    return [_finding(tune, group, alternatives) for group in causes.values()]


def _cause(tune: Tune, each: Reported) -> tuple[object, ...]:
    note = each.fit.note
    if note.mark.deliberate:
        return (note.mark.span.place, each.stretch.chord)
    if each.heard is Heard.KEY_NOTE:
        return (each.heard,)
    lick = tune.lick_of(note)
    return (lick, str(note.tab), each.stretch.chord, each.heard, each.at > 0)


def _finding(tune: Tune, group: Sequence[Reported], alternatives: Alternatives) -> Problem:
    first = group[0]
    note, chord = first.fit.note, first.stretch.chord
    if first.heard is Heard.KEY_NOTE and not note.mark.deliberate:
        return _key_note(tune, group, alternatives)
    span, sounding = note.mark.span, sounding_of(tune, group, alternatives.judge.blue)
    if note.mark.deliberate:
        return kinds.NoteClashDeliberate(span, sounding=sounding)
    if first.heard is Heard.SUSPENDED:
        after = next(each for each in tune.notes if each.start == note.end)
        falls = min(after.midi) < min(note.midi)
        return kinds.NoteSuspended(span, sounding=sounding, falls=falls)
    if first.heard is Heard.FLAT_FIVE:
        steps = alternatives.by_step(note, chord)
        return kinds.FlatFiveStays(span, sounding=sounding, steps=steps)
    offers, edit = alternatives.instead([each.fit.note for each in group], chord)
    return kinds.NoteClash(span, sounding=sounding, offers=offers, edit=edit)


def _key_note(tune: Tune, group: Sequence[Reported], alternatives: Alternatives) -> Problem:
    """The key note over V: the first tab of it with its bars, and the other bars of the tune."""
    first = group[0]

    def alike(each: Reported) -> tuple[object, ...]:
        note = each.fit.note
        return tune.lick_of(note), str(note.tab), each.stretch.chord, each.at > 0

    own = [each for each in group if alike(each) == alike(first)]
    sounding = sounding_of(tune, own, alternatives.judge.blue)
    bars = {tune.bars[each.stretch.bar].number for each in group}
    offers, _ = alternatives.instead([each.fit.note for each in own], first.stretch.chord)
    return kinds.KeyNoteOverFive(
        first.fit.note.mark.span,
        sounding=sounding,
        elsewhere=sorted(bars.difference(sounding.bars)),
        offers=offers,
    )


def sounding_of(tune: Tune, group: Sequence[Reported], blue: bool) -> kinds.Sounding:
    """The notes of one cause in words; of a block the tone that is meant."""
    first, lesson = group[0], tune.lesson
    note, chord, key = first.fit.note, first.stretch.chord, lesson.key
    degrees = {midi: key.degree(midi, chord) for midi in note.midi}
    if first.heard is Heard.FLAT_FIVE:
        meant = next(midi for midi, degree in degrees.items() if degree == FLAT_FIVE)
    else:
        meant = max(note.midi, key=lambda midi: tone_verdict(midi % 12, chord, key, blue))
    block = len(note.midi) > 1
    beat = lesson.facts.meter.beat
    return kinds.Sounding(
        tab=str(note.tab),
        pitch=spelled(meant % 12, chord.root_name(key.tonic)),
        sounds=sounding_name(note.tab, lesson.facts.harp, key, chord) if block else "",
        degree=degrees[meant],
        letter=chord.name(key.tonic),
        bars=sorted({tune.bars[each.stretch.bar].number for each in group}),
        beats=sorted({int(each.stretch.onset // beat) + 1 for each in group}),
        lick=tune.lick_of(note),
        held=first.at > 0,
        length=max(each.stretch.length for each in group) / beat,
        whole=all(_fills_its_bar(each, lesson.facts.meter.bar) for each in group),
    )


def _fills_its_bar(each: Reported, bar: Fraction) -> bool:
    return not each.stretch.onset and each.stretch.length >= bar
