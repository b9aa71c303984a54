"""How hard the tune is to play: bends, breath turns, slides and techniques at its tempo.

Each check takes the whole tune; `CHECKS` lists them. A written place that is played in several
bars is reported once. The limits are those of the lesson's level, see `level.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise

from formsheet.judge.effort import FIRST_TOP_HOLE, NEW_NOTE, SLIDE_PER_BIT
from formsheet.judge.joins import PlayedMove, find_moves
from formsheet.judge.level import (
    DEEP_BEND,
    LIMITS,
    LOW_REED,
    SOON,
    TURNS_IN_A_ROW,
    WIDE_SLIDE,
    Limits,
    level_for,
)
from formsheet.judge.offers import chord_tones_near, same_pitch, singles_near
from formsheet.judge.words import move_words
from formsheet.music import pitch
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


def fast_moves(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Moves without enough time, one for each lick and each join: the hardest.

    A move is too fast if it is easy only under the level's share of the tune's tempo, a wide slide
    (`WIDE_SLIDE`) even if it is a little faster than at ease, and a row of breath turns.
    """
    target = float(tune.lesson.facts.tempo)
    reported: set[tuple[str, str]] = set()
    for each in find_moves(tune):
        too_fast = each.easy_tempo < limits.easy_share * target
        licks = each.first_lick.name, each.second_lick.name if each.joins else ""
        if licks in reported or not (too_fast or _too_wide(each, limits)):
            continue
        reported.add(licks)
        yield _move_too_fast(tune, each) if too_fast else _slide_too_fast(tune, each)
    for run, bars in _fast_turns(tune, limits):
        note = run[0][0]
        if (tune.lick_of(note), "") not in reported:
            yield kinds.TurnsFast(
                note.mark.span,
                tab=str(note.tab),
                count=len(run),
                ms=round(max(seconds for _, seconds in run) * _MILLISECONDS),
                bars=sorted(set(bars)),
            )


def _move_too_fast(tune: Tune, each: PlayedMove) -> Problem:
    return kinds.MoveTooFast(
        each.first.mark.span,
        first=str(each.last.tab),
        tab=str(each.first.tab),
        moves=move_words(each.move),
        ms=_milliseconds(each),
        easy=int(each.easy_tempo),
        tempo=tune.lesson.facts.tempo,
        joins=each.joins,
        bars=each.bars,
    )


def _slide_too_fast(tune: Tune, each: PlayedMove) -> Problem:
    return kinds.SlideTooFast(
        each.first.mark.span,
        first=str(each.last.tab),
        tab=str(each.first.tab),
        holes=each.move.holes,
        ms=_milliseconds(each),
        needs=round(_slide_seconds(each) * _MILLISECONDS),
        bars=each.bars,
        offers=singles_near(each.last.tab, each.first, tune),
    )


def _milliseconds(each: PlayedMove) -> int:
    return round((each.first.start_s - each.last.start_s) * _MILLISECONDS)


def _slide_seconds(each: PlayedMove) -> float:
    """Seconds that the slide alone takes at ease."""
    return NEW_NOTE + SLIDE_PER_BIT * each.move.bits


def _too_wide(each: PlayedMove, limits: Limits) -> bool:
    """Whether a move is a wide slide without enough time."""
    gap = each.first.start_s - each.last.start_s
    return each.move.holes >= WIDE_SLIDE and gap < _slide_seconds(each) * limits.slide_share


def _fast_turns(tune: Tune, limits: Limits) -> list[tuple[list[tuple[Note, float]], list[int]]]:
    """Rows of fast breath turns (note and seconds of each), with the numbers of their bars."""
    found: dict[tuple[object, ...], tuple[list[tuple[Note, float]], list[int]]] = {}
    run: list[tuple[Note, float]] = []
    for last, first in [*pairwise(tune.notes), (None, None)]:
        if last and first and _turns(last, first) < limits.fastest_turn:
            run.append((last, _turns(last, first)))
            continue
        if len(run) >= TURNS_IN_A_ROW:
            note = run[0][0]
            _, bars = found.setdefault(note.mark.span.place, (run, []))
            bars.append(tune.bars[note.bar].number)
        run = []
    return list(found.values())


def _turns(last: Note, first: Note) -> float:
    """Seconds between the onsets of two notes on different breaths; infinite on the same one."""
    return first.start_s - last.start_s if last.tab.breath is not first.tab.breath else float("inf")


def high_bends(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Bends on the top holes, and bends so high that they are hard to place, once a lick."""
    facts = tune.lesson.facts
    bent = (note for note in tune.notes if note.tab.bend)
    for note in _once_a_lick(tune, bent):
        top = note.tab.holes[0] >= FIRST_TOP_HOLE
        if (top and not limits.top_bends) or note.midi[0] > limits.highest_bend:
            yield kinds.BendHigh(
                note.mark.span,
                tab=str(note.tab),
                pitch=pitch.with_octave(tune.lesson.key.spell(note.midi[0] % 12), note.midi[0]),
                top=top,
                harp=facts.harp.name,
                level=_level_words(facts.level),
                lick=tune.lick_of(note),
            )


def _once_a_lick(tune: Tune, notes: Iterable[Note]) -> Iterator[Note]:
    """The first of each tab in each lick."""
    return iter({(tune.lick_of(note), note.tab): note for note in reversed([*notes])}.values())


def low_reeds(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Notes too short for the slow reeds at the bottom of a low harp, once a lick."""
    short = (
        note
        for note in tune.notes
        if min(note.midi) < LOW_REED and note.end_s - note.start_s < limits.low_reed
    )
    by_lick: dict[str, list[Note]] = {}
    for note in short:
        by_lick.setdefault(tune.lick_of(note), []).append(note)
    for lick, notes in by_lick.items():
        shortest = min(note.end_s - note.start_s for note in notes)
        yield kinds.ReedSlow(
            notes[0].mark.span,
            tabs=list(dict.fromkeys(str(note.tab) for note in notes)),
            harp=tune.lesson.facts.harp.name,
            ms=round(shortest * _MILLISECONDS),
            needs=round(limits.low_reed * _MILLISECONDS),
            lick=lick,
            bars=sorted({tune.bars[note.bar].number for note in notes}),
        )


def mouth_changes(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Rows of changes between octave or block and bend, each with little time."""

    def changes(last: Note, first: Note) -> bool:
        shapes = {last.tab.shape, first.tab.shape}
        bent = last.tab.bend or first.tab.bend
        soon = first.start_s - last.start_s < SOON
        return bool(soon and bent and len(shapes) > 1)

    found: dict[tuple[object, ...], tuple[Note, int, list[int]]] = {}
    run: list[Note] = []
    for last, first in [*pairwise(tune.notes), (None, None)]:
        if last and first and changes(last, first):
            run.append(last)
            continue
        if len(run) > limits.mouth_changes:
            note = run[0]
            _, _, bars = found.setdefault(note.mark.span.place, (note, len(run), []))
            bars.append(tune.bars[note.bar].number)
        run = []
    for note, count, bars in found.values():
        yield kinds.MouthChanges(
            note.mark.span, tab=str(note.tab), count=count, bars=sorted(set(bars)),
            level=_level_words(tune.lesson.facts.level),
        )  # fmt: skip


def bent_for_long(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Bent notes that sound for many seconds without a rest or a natural note."""
    for run in _runs(tune.notes, lambda note: bool(note.tab.bend)):
        seconds = sum(note.end_s - note.start_s for note in run)
        if seconds > limits.bent_seconds:
            first = run[0]
            yield kinds.BentLong(
                first.mark.span,
                tab=str(first.tab),
                seconds=seconds,
                most=limits.bent_seconds,
                bars=[tune.bars[first.bar].number],
                level=_level_words(tune.lesson.facts.level),
            )


def many_licks(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """More different licks than a student of the level learns in one tune."""
    licks = list(dict.fromkeys(bar.lick.name for bar in tune.bars if bar.lick))
    if len(licks) > limits.licks:
        span = tune.lesson.licks[licks[limits.licks]].span
        yield kinds.LicksMany(
            span,
            count=len(licks),
            most=limits.licks,
            level=_level_words(tune.lesson.facts.level),
        )


def long_phrases(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Phrases that run on without a rest or a repeat for more bars than the level can hold."""
    reported = set()
    for phrase in _phrases(tune):
        first, last = phrase
        bars = last.bar - first.home + 1
        if bars > limits.phrase and first.mark.span.place not in reported:
            reported.add(first.mark.span.place)
            yield kinds.PhraseLong(
                first.mark.span,
                length=bars,
                most=limits.phrase,
                first=tune.bars[first.home].number,
                level=_level_words(tune.lesson.facts.level),
            )


def _phrases(tune: Tune) -> Iterator[tuple[Note, Note]]:
    """First and last note of each phrase: it ends with a rest of half a beat, or at a repeat."""
    half = tune.lesson.facts.meter.beat / 2
    first: Note | None = None
    heard: set[tuple[str, int]] = set()  # bars of licks in this phrase
    for last, note in pairwise([None, *tune.notes]):
        assert note is not None
        slot = tune.bars[note.home].slot
        here = (tune.lick_of(note), slot.bar_in_lick)
        new_bar = last is not None and last.home != note.home
        if last and first and (note.start - last.end >= half or (new_bar and here in heard)):
            yield first, last
            first, heard = None, set()
        first = first or note
        heard.add(here)
    if first:
        yield first, tune.notes[-1]


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
    high_bends,
    bends_in_a_row,
    bent_for_long,
    fast_moves,
    low_reeds,
    mouth_changes,
    many_licks,
    long_phrases,
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
