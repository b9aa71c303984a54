"""Findings about the fit: each written note reported once, with all bars in which it clashes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from typing import NamedTuple

from formsheet.judge.fit import BarFit, NoteFit, Stretch, Verdict, tone_verdict
from formsheet.judge.harmony import sounding_name
from formsheet.judge.offers import chord_tones_near
from formsheet.music.chord import Chord
from formsheet.music.degree import degree, spelled
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Note, Tune


class _Heard(NamedTuple):
    """A clash over one chord."""

    fit: NoteFit
    stretch: Stretch
    held: bool  # struck over an earlier chord and held into this one


def fit_findings(tune: Tune, fits: Sequence[BarFit]) -> list[Problem]:
    """A warning for each clash that lands or is held, a remark for each other clash.

    A clash that a step leads away from is a passing note and is not reported (see `fit.py`).
    """
    grouped: dict[tuple[object, ...], list[_Heard]] = {}
    for heard in _clashes(fits):
        key = (heard.fit.note.mark.span.place, heard.stretch.chord, heard.stretch.onset)
        grouped.setdefault(key, []).append(heard)
    chords = _chords_heard(fits) if grouped else {}
    return [
        _finding(tune, group, chords[group[0].fit.note.mark.span.place])
        for group in grouped.values()
    ]


def _chords_heard(fits: Sequence[BarFit]) -> dict[object, set[Chord]]:
    """All chords over which each written mark is heard, in every bar where its lick is played."""
    chords: dict[object, set[Chord]] = {}
    for bar_fit in fits:
        for fit in bar_fit.notes:
            heard = chords.setdefault(fit.note.mark.span.place, set())
            heard.update(stretch.chord for stretch in fit.stretches)
    return chords


def _clashes(fits: Sequence[BarFit]) -> Iterator[_Heard]:
    for bar_fit in fits:
        for fit in bar_fit.notes:
            if fit.verdict is Verdict.CLASH:
                yield _Heard(fit, fit.stretches[0], held=False)
            for stretch, verdict in zip(fit.stretches[1:], fit.held, strict=True):
                if verdict is Verdict.CLASH:
                    yield _Heard(fit, stretch, held=True)


def _kind(group: Sequence[_Heard]) -> type[kinds.NoteAgainstChord]:
    """The kind of finding for a group; the most severe of its members."""
    if group[0].fit.note.mark.deliberate:
        return kinds.NoteClashDeliberate
    if any(each.held or (each.fit.lands and not each.fit.leans) for each in group):
        return kinds.NoteClash
    if all(each.fit.leans for each in group):
        return kinds.NoteLeans
    return kinds.NoteRubs


def _finding(tune: Tune, group: Sequence[_Heard], chords: Set[Chord]) -> Problem:
    heard = group[0]
    fit, stretch = heard.fit, heard.stretch
    key = tune.lesson.key
    chord, note = stretch.chord, fit.note
    root = (key.pitch_class + chord.root) % 12
    worst = max(note.midi, key=lambda midi: tone_verdict(midi % 12, chord, key))
    degree_name = degree(worst % 12, root)
    deliberate = note.mark.deliberate
    beat = int(stretch.onset // tune.lesson.facts.meter.beat) + 1
    return _kind(group)(
        note.mark.span,
        tab=str(note.tab),
        pitch=_sounds(note, worst, chord, tune),
        degree=degree_name,
        letter=chord.name(key.tonic),
        bars=sorted({tune.bars[each.stretch.bar].number for each in group}),
        beat=beat,
        lick=lick_of(tune, note),
        held=heard.held,
        offers=[] if deliberate else chord_tones_near(note.tab, chord, chords, tune.lesson),
    )


def _sounds(note: Note, worst: int, chord: Chord, tune: Tune) -> str:
    """The pitch of a note in words; for a block, its name and the tone that clashes."""
    key = tune.lesson.key
    tone = spelled(worst % 12, chord.root_name(key.tonic))
    if len(note.midi) == 1:
        return tone
    return f"{sounding_name(note.tab, tune.lesson.facts.harp, key, chord)}, its {tone}"


def lick_of(tune: Tune, note: Note) -> str:
    """The name of the lick that a note belongs to: for a pick-up note, the lick that follows."""
    index = note.bar + (1 if note.played.pickup else 0)
    lick = tune.bars[index].lick
    return lick.name if lick else ""
