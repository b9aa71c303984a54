"""Findings about breath: where the student is full or empty, and which rest would mend it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.judge.beyond import level_words
from formsheet.judge.breath import Airless, BreathFit, judge_breath, places_to_breathe
from formsheet.judge.fit import Heard, Judge
from formsheet.judge.joins import Pair, pairs_of
from formsheet.judge.ladder import METRONOME, first_tempo
from formsheet.judge.level import LIMITS
from formsheet.lesson.model import Kind
from formsheet.problems import kinds
from formsheet.problems.problem import Edit, Problem
from formsheet.tune.timeline import Note, Tune

#: A chorus without a rest is worth a remark if the air comes to this share of the level's limit.
#: Our own choice.
UNEVEN = 0.6
#: Most notes that are tried as a rest.
_MOST_TRIED = 12


def breath_findings(tune: Tune, pairs: Sequence[Pair] | None = None) -> list[Problem]:
    """Where breath fails at the tune's tempo, else where it fails at the tempo to start at.

    `pairs` are the moves of the tune, if they are known.
    """
    facts = tune.lesson.facts
    full = judge_breath(tune, float(facts.tempo))
    if full.airless:
        return list(_airless(tune, full, starts=False))
    enough = LIMITS[facts.level].air * UNEVEN
    slower = facts.tempo / (facts.learn or METRONOME[0])
    if full.peak * max(1.0, float(slower)) <= enough:
        return []  # even at the slowest tempo that anyone starts at there is air enough
    start = first_tempo(pairs_of(tune) if pairs is None else pairs, facts)
    found = list(_airless(tune, judge_breath(tune, float(start)), starts=True))
    return found or list(_breathless(tune, full))


def _airless(tune: Tune, breath: BreathFit, *, starts: bool) -> Iterator[Problem]:
    """One problem for drawn air and one for blown, each with its bars in the first chorus."""
    level = tune.lesson.facts.level
    for full in (True, False):
        group = [each for each in breath.airless if each.full is full]
        if not group:
            continue
        first = group[0]
        bars = [tune.bars[tune.notes[each.note].bar] for each in group]
        chorus, since = bars[0].chorus, tune.bars[tune.notes[first.since].home]
        mended = _mended(tune, breath, first)
        yield kinds.BreathRunsOut(
            tune.notes[first.note].mark.span,
            full=full,
            since=since.number,
            since_chorus=since.chorus if since.chorus != chorus else None,
            air=first.air,
            limit=LIMITS[level].air,
            level=level_words(level),
            tempo=breath.tempo,
            starts=starts,
            chorus=chorus if chorus > 1 else None,
            bars=sorted({bar.number for bar in bars if bar.chorus == chorus}),
            rest=str(mended[0].tab) if mended else "",
            rest_bar=tune.bars[mended[0].bar].number if mended else 0,
            rest_beat=int(mended[0].onset // tune.lesson.facts.meter.beat) + 1 if mended else 0,
            edit=mended[1] if mended else None,
        )


def _mended(tune: Tune, breath: BreathFit, place: Airless) -> tuple[Note, Edit] | None:
    """The note that may give way to a rest so that air lasts everywhere, and the edit.

    The last notes of bars are tried first: a phrase breathes at its end.
    """
    notes = tune.notes
    span = range(place.since, place.note + 1)
    ends = [at for at in span if at + 1 == len(notes) or notes[at + 1].bar != notes[at].bar]
    others = [at for at in span if at not in ends and notes[at].onset]
    tried: set[tuple[object, ...]] = set()
    for at in [*reversed(ends), *reversed(others)]:
        note = notes[at]
        where = note.mark.span.place
        if where in tried or not _may_rest(tune, note):
            continue
        tried.add(where)
        left = [each for each in notes if each.mark.span.place != where]
        if not judge_breath(tune, breath.tempo, left).airless and _still_fits(tune, left):
            return note, Edit(note.mark.span, "-", certain=False)
        if len(tried) >= _MOST_TRIED:
            break
    return None


def _may_rest(tune: Tune, note: Note) -> bool:
    """Whether the mark of a note can be a rest: it is of the lesson's own music, and not held.

    A note in a rhythm cannot: there the rhythm has the rests. Nor can the only note of a lick.
    """
    lick = tune.bars[note.home].lick
    if lick is None or note.played.pickup or note.duration != note.mark.value.length:
        return False
    source = note.mark.span.source
    in_rhythm = source.text[lick.on_span.end :].lstrip(" \t").startswith(("in ", "in\t"))
    of_shelf = source is not tune.lesson.plays[0].span.source
    notes = {mark.span for bar in lick.bars for mark in bar if mark.kind is Kind.NOTE}
    return not in_rhythm and not of_shelf and len(notes) > 1


def _still_fits(tune: Tune, notes: Sequence[Note]) -> bool:
    """Whether no note clashes now that a rest follows it."""
    before, after = Judge(tune), Judge(tune, notes)
    clashes = sum(Heard.CLASHES in before.note(at).heard for at in range(len(tune.notes)))
    return sum(Heard.CLASHES in after.note(at).heard for at in range(len(notes))) <= clashes


def _breathless(tune: Tune, breath: BreathFit) -> Iterator[Problem]:
    """Choruses without a place to breathe, unless draw and blow make up for each other."""
    limit = LIMITS[tune.lesson.facts.level].air
    if breath.peak <= UNEVEN * limit or breath.drawn_share is None:
        return
    breathes = {tune.bars[tune.notes[index].bar].chorus for index in places_to_breathe(tune)}
    for chorus in tune.choruses:
        inside = [note for note in tune.notes if tune.bars[note.bar].chorus == chorus.number]
        if inside and chorus.number not in breathes:
            yield kinds.ChorusWithoutBreath(
                inside[0].mark.span,
                chorus=chorus.number,
                drawn=round(100 * breath.drawn_share),
                several=len(tune.choruses) > 1,
            )
