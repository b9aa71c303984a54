"""How hard the tune is to play: bends, breath turns, slides and techniques at its tempo.

Each check takes the whole tune; `CHECKS` lists them. A written place that is played in several
bars is reported once. The limits are those of the lesson's level, see `level.py`.

A note that is asked of the wrong level, or too short for its reed, is reported as that alone:
nothing is said of the moves to and from it (`fast_moves.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from formsheet.judge.beyond import beyond_level, level_words, too_high, too_short
from formsheet.judge.effort import FIRST_TOP_HOLE
from formsheet.judge.fast_moves import fast_moves
from formsheet.judge.joins import Pair, pairs_of
from formsheet.judge.level import DEEP_BEND, LIMITS, PHRASE_REST, Limits, level_for
from formsheet.judge.offers import chord_tones_near, same_pitch
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


def handling_findings(tune: Tune, pairs: Sequence[Pair] | None = None) -> list[Problem]:
    """The findings of all checks, for a student of the lesson's level.

    `pairs` are the moves of the tune, if they are known.
    """
    limits = LIMITS[tune.lesson.facts.level]
    found = [problem for check in CHECKS for problem in check(tune, limits)]
    return [*found, *fast_moves(tune, limits, pairs_of(tune) if pairs is None else pairs)]


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
            level=level_words(facts.level),
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
    deep = (note for note in tune.notes if note.tab.bend > limits.deepest_bend)
    for note in _once(note for note in deep if not too_high(note, limits)):
        wanted = level_for(note.tab.bend)
        yield kinds.BendHard(
            note.mark.span,
            tab=str(note.tab),
            bend=note.tab.bend,
            level=level_words(facts.level),
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


def high_bends(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Bends on the top holes, and bends so high that they are hard to place, each tab once."""
    facts = tune.lesson.facts
    by_tab: dict[Tab, list[Note]] = {}
    for note in (note for note in tune.notes if too_high(note, limits)):
        by_tab.setdefault(note.tab, []).append(note)
    for note, *others in by_tab.values():
        wanted = next((level for level in Level if not beyond_level(note, LIMITS[level])), None)
        yield kinds.BendHigh(
            note.mark.span,
            tab=str(note.tab),
            pitch=pitch.with_octave(tune.lesson.key.spell(note.midi[0] % 12), note.midi[0]),
            top=note.tab.holes[0] >= FIRST_TOP_HOLE,
            harp=facts.harp.name,
            level=level_words(facts.level),
            bars=sorted({tune.bars[each.bar].number for each in (note, *others)}),
            wanted=wanted.value if wanted else None,
            further=fact_set(facts.places, "level", wanted.value) if wanted else None,
        )


def low_reeds(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Notes too short for the slow reeds at the bottom of a low harp, once a lick."""
    by_lick: dict[str, list[Note]] = {}
    for note in (note for note in tune.notes if too_short(note, limits)):
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


def bent_for_long(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Bent notes that sound for many seconds without a rest or a natural note."""
    for run in _runs(tune.notes, lambda note: bool(note.tab.bend), over_rests=False):
        seconds = sum(note.end_s - note.start_s for note in run)
        if seconds > limits.bent_seconds:
            first = run[0]
            yield kinds.BentLong(
                first.mark.span,
                tab=str(first.tab),
                seconds=seconds,
                most=limits.bent_seconds,
                bars=sorted({tune.bars[note.bar].number for note in run}),
                level=level_words(tune.lesson.facts.level),
            )


def many_licks(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """More different licks than a student of the level learns in one tune."""
    played = {bar.lick.name for bar in tune.bars if bar.lick}
    if len(played) > limits.licks:
        yield kinds.LicksMany(
            tune.lesson.plays[0].span,
            count=len(played),
            most=limits.licks,
            level=level_words(tune.lesson.facts.level),
        )


def long_phrases(tune: Tune, limits: Limits) -> Iterator[Problem]:
    """Phrases that run on without a rest or a repeat for more bars than the level can hold."""
    reported = set()
    for first, last in _phrases(tune):
        bars = last.bar - first.home + 1
        if bars > limits.phrase and first.mark.span.place not in reported:
            reported.add(first.mark.span.place)
            yield kinds.PhraseLong(
                first.mark.span,
                length=bars,
                most=limits.phrase,
                first=tune.bars[first.home].number,
                level=level_words(tune.lesson.facts.level),
            )


def _phrases(tune: Tune) -> Iterator[tuple[Note, Note]]:
    """First and last note of each phrase: it ends with a rest, or where a bar is played again."""
    if not tune.notes:
        return
    rest = PHRASE_REST * tune.lesson.facts.meter.beat
    first = last = tune.notes[0]
    here = _bar_of_lick(tune, first)
    heard = {here}  # in this phrase
    for note in tune.notes[1:]:
        new_bar = note.home != last.home
        if new_bar:
            here = _bar_of_lick(tune, note)
        rests = note.start_s > last.end_s and note.start - last.end >= rest
        if rests or (new_bar and here in heard):
            yield first, last
            first, heard = note, set()
        heard.add(here)
        last = note
    yield first, last


def _bar_of_lick(tune: Tune, note: Note) -> tuple[str, int]:
    """The lick of a note, and in which of its bars the note is."""
    return tune.lick_of(note), tune.bars[note.home].slot.bar_in_lick


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
    low_reeds,
    many_licks,
    long_phrases,
    techniques,
)


def _once(notes: Iterable[Note]) -> Iterator[Note]:
    """Each written note once, however often it is played."""
    return iter({note.mark.span.place: note for note in notes}.values())


def _runs(
    notes: Sequence[Note], wanted: Callable[[Note], bool], *, over_rests: bool = True
) -> list[list[Note]]:
    """Runs of consecutive notes that are wanted; each written run once, where it is longest."""
    runs: dict[tuple[object, ...], list[Note]] = {}
    run: list[Note] = []
    for note in notes:
        if run and (not wanted(note) or not (over_rests or note.start == run[-1].end)):
            run = []
        if wanted(note):
            run.append(note)
            place = run[0].mark.span.place
            if len(run) > len(runs.get(place, ())):
                runs[place] = run
    return [*runs.values()]
