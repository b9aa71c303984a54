"""How hard the tune is to play: bends, breath turns, slides and techniques at its tempo.

Each check takes the whole tune; `CHECKS` lists them. A written place that is played in several
bars is reported once. The limits are those of the lesson's level, see `level.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise

from formsheet.judge.effort import NEW_NOTE, SLIDE_PER_BIT, move
from formsheet.judge.level import (
    DEEP_BEND,
    LIMITS,
    TURNS_IN_A_ROW,
    WIDE_SLIDE,
    Limits,
    level_for,
)
from formsheet.judge.offers import chord_tones_near, same_pitch, singles_near
from formsheet.music.harp import Harp
from formsheet.music.tab import Shape, Tab, shaken
from formsheet.music.tunings import HOLES
from formsheet.problems import kinds
from formsheet.problems.edits import fact_set
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Note, Tune
from formsheet.vocabulary.facts import Level
from formsheet.vocabulary.techniques import BENT_TECHNIQUES, SHAKE

_MILLISECONDS = 1000


def handling_findings(tune: Tune) -> list[Problem]:
    """The findings of all checks, for a student of the lesson's level."""
    limits = LIMITS[tune.lesson.facts.level]
    return [problem for check in CHECKS for problem in check(tune, limits)]


def overbends(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Overblows and overdraws, unless the lesson is for advanced students."""
    facts = tune.lesson.facts
    if limits.overbends:
        return
    for note in _once(note for note in tune.notes if note.tab.overbend):
        yield kinds.OverbendTaught(
            note.mark.span,
            tab=str(note.tab),
            kind=f"over{note.tab.breath.word}",
            level=_level_words(facts.level),
            beginner=facts.level is Level.BEGINNER,
            offers=_easier(tune, note),
            same=bool(same_pitch(note, facts.harp)),
            advanced=fact_set(facts.places, "level", Level.ADVANCED.value),
        )


def _easier(tune: Tune, note: Note) -> list[str]:
    """Tab for the same pitch played another way, else for chord tones near it."""
    lesson = tune.lesson
    chord = tune.bars[note.bar].chord_at(note.onset)
    return same_pitch(note, lesson.facts.harp) or chord_tones_near(note, chord, lesson)


def deep_bends(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Bends deeper than the level allows."""
    facts = tune.lesson.facts
    for note in _once(note for note in tune.notes if note.tab.bend > limits.deepest_bend):
        wanted = level_for(note.tab.bend)
        yield kinds.BendHard(
            note.mark.span,
            tab=str(note.tab),
            bend=note.tab.bend,
            level=_level_words(facts.level),
            wanted=wanted.value if wanted else None,
            further=fact_set(facts.places, "level", wanted.value) if wanted else None,
            offers=_easier(tune, note),
            same=bool(same_pitch(note, facts.harp)),
        )


def bends_in_a_row(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Deep bends struck one after another, with no natural note between."""
    for run in _runs(tune.notes, lambda note: note.tab.bend >= DEEP_BEND):
        if len(run) > limits.bends_in_a_row:
            first = run[0]
            yield kinds.BendsRepeated(
                first.mark.span,
                tab=str(first.tab),
                count=len(run),
                lick=tune.lick_of(first),
            )


def fast_turns(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Runs of breath turns, each faster than the level allows."""
    reported: dict[tuple[object, ...], tuple[Note, list[float], list[int]]] = {}
    run: list[tuple[Note, float]] = []
    for last, first in [*pairwise(tune.notes), (None, None)]:
        if last and first and _turns(last, first) < limits.fastest_turn:
            run.append((last, _turns(last, first)))
            continue
        if len(run) >= TURNS_IN_A_ROW:
            note = run[0][0]
            times = [seconds for _, seconds in run]
            _, _, bars = reported.setdefault(note.mark.span.place, (note, times, []))
            bars.append(tune.bars[note.bar].number)
        run = []
    for note, times, bars in reported.values():
        yield kinds.TurnsFast(
            note.mark.span,
            tab=str(note.tab),
            count=len(times),
            ms=round(max(times) * _MILLISECONDS),
            bars=sorted(set(bars)),
        )


def _turns(last: Note, first: Note) -> float:
    """Seconds between the onsets of two notes on different breaths; infinite on the same one."""
    return first.start_s - last.start_s if last.tab.breath is not first.tab.breath else float("inf")


def wide_slides(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Wide slides (`WIDE_SLIDE`) without enough time at this tempo, joins included."""
    reported: dict[tuple[object, ...], tuple[Note, Note, list[int]]] = {}
    for last, first in pairwise(tune.notes):
        step = move(last.tab, first.tab)
        needs = NEW_NOTE + SLIDE_PER_BIT * step.bits
        if step.holes >= WIDE_SLIDE and first.start_s - last.start_s < needs * limits.slide_share:
            key = (*first.mark.span.place, str(last.tab))
            reported.setdefault(key, (last, first, []))[2].append(tune.bars[first.bar].number)
    for last, first, bars in reported.values():
        step = move(last.tab, first.tab)
        yield kinds.SlideTooFast(
            first.mark.span,
            first=str(last.tab),
            tab=str(first.tab),
            holes=step.holes,
            ms=round((first.start_s - last.start_s) * _MILLISECONDS),
            needs=round((NEW_NOTE + SLIDE_PER_BIT * step.bits) * _MILLISECONDS),
            bars=sorted(set(bars)),
            offers=singles_near(last.tab, first, tune),
        )


def techniques(tune: Tune, _: Limits) -> Iterator[Problem]:
    """Techniques that cannot be done on their note."""
    harp = tune.lesson.facts.harp
    for note in _once(note for note in tune.notes if note.mark.technique):
        if note.mark.technique == SHAKE:
            yield from _unshaken(note)
        elif note.mark.technique in BENT_TECHNIQUES:
            yield from _unbent(note, harp)


def _unshaken(note: Note) -> Iterator[Problem]:
    """Why a note cannot be shaken: to and fro between natural notes of two neighbouring holes."""
    tab, span = note.tab, note.mark.span
    if tab.shape is Shape.SPLIT:
        notes = [str(each) for each in _single(tab)]
        yield kinds.ShakeOnSplit(span, tab=str(tab), notes=notes)
    elif tab.bend or tab.overbend:
        kind = f"an over{tab.breath.word}" if tab.overbend else "bent"
        yield kinds.ShakeOnBend(span, tab=str(tab), kind=kind, plain=str(_single(tab)[0]))
    elif shaken(tab) is None:
        lower = Tab((HOLES - 1,), tab.breath)
        yield kinds.ShakeNowhere(span, tab=str(tab), lower=str(lower))


def _unbent(note: Note, harp: Harp) -> Iterator[Problem]:
    """Why a note cannot have a technique that bends it."""
    tab, span, technique = note.tab, note.mark.span, note.mark.technique
    if tab.shape is not Shape.SINGLE:
        yield kinds.TechniqueOnChord(
            span,
            tab=str(tab),
            technique=technique,
            shape=tab.shape.value,
            notes=[str(each) for each in _single(tab) if harp.bends(each)],
        )
    elif not harp.bends(tab):
        yield kinds.TechniqueNoBend(
            span,
            tab=str(tab),
            technique=technique,
            hole=tab.holes[0],
            breath=tab.breath.word,
        )


def _single(tab: Tab) -> list[Tab]:
    """The natural single notes of a chord, low to high."""
    return [Tab((hole,), tab.breath) for hole in tab.holes]


CHECKS: tuple[Callable[[Tune, Limits], Iterator[Problem]], ...] = (
    overbends,
    deep_bends,
    bends_in_a_row,
    fast_turns,
    wide_slides,
    techniques,
)


def _level_words(level: Level) -> str:
    who = "advanced student" if level is Level.ADVANCED else level.value
    return f"{'an' if who[0] in 'aeiou' else 'a'} {who}"


def _once(notes: Iterable[Note]) -> Iterator[Note]:
    """Each written note once, however often it is played."""
    return iter({note.mark.span.place: note for note in notes}.values())


def _runs(notes: Sequence[Note], wanted: Callable[[Note], bool]) -> Iterator[list[Note]]:
    """Runs of consecutive notes that are wanted; each written run once."""
    runs: dict[tuple[object, ...], list[Note]] = {}
    run: list[Note] = []
    for note in [*notes, None]:
        if note and wanted(note):
            run.append(note)
        elif run:
            place = run[0].mark.span.place
            if len(run) > len(runs.get(place, ())):
                runs[place] = run
            run = []
    return iter(runs.values())
