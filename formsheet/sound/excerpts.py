"""Excerpts for practice: a lick alone, a join or a hard move as a loop, the whole tune.

An excerpt is a range of whole bars of the tune with the notes that belong to it. Its first bar
line is beat 0; a pick-up comes before it, at negative beats.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from formsheet.judge.joins import PlayedMove, hardest
from formsheet.listing import bars_words
from formsheet.sound.backing import backing_events
from formsheet.sound.events import Event, guide_events
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.passages import Passage, lick_passages, whole_tune
from formsheet.tune.timeline import Note, Tune

MOST_LOOPS = 5  # the number of moves and joins that are looped, the hardest
_NEAR = 1e-9  # beats: tolerance for rounding


@dataclass(frozen=True)
class Excerpt:
    """A part of the tune to be played once or as a loop."""

    name: str  # plain words joined by hyphens: "porch", "gate-to-creek", "inside-porch"
    title: str  # for the student
    first: int  # index of the tune's bar that starts at its beat 0
    beats: float  # length of one round, in whole bars
    guide: tuple[Event, ...]
    band: tuple[Event, ...]  # of the same bars

    @property
    def pickup(self) -> float:
        """Length in beats of the part before its first bar line."""
        return _lead(self.guide)


def tune_excerpt(tune: Tune) -> Excerpt:
    """The whole tune."""
    band, passage = backing_events(tune), whole_tune(tune)
    return _excerpt(tune, band, "tune", tune.lesson.facts.title, passage, tune.notes)


def lick_excerpts(tune: Tune) -> Iterator[Excerpt]:
    """Each lick as the tune first plays it whole, in order of appearance."""
    band, letters = backing_events(tune), LickLetters(tune)
    for lick, passage in lick_passages(tune):
        notes = [note for note in tune.notes if passage.first <= note.home <= passage.last]
        yield _looped(_excerpt(tune, band, lick.name, letters.said(lick), passage, notes), tune)


def move_excerpts(tune: Tune, moves: Sequence[PlayedMove]) -> Iterator[tuple[PlayedMove, Excerpt]]:
    """The moves and joins to practise, as loops; `moves` is sorted, hardest first.

    A move inside a lick whose loop would be the whole lick is left out.
    """
    band, letters = backing_events(tune), LickLetters(tune)
    looped = [each for each in moves if each.joins or each.passage.bars < len(each.first_lick.bars)]
    for each in hardest(looped, float(tune.lesson.facts.tempo), MOST_LOOPS):
        passage = each.passage
        notes = [note for note in tune.notes if passage.first <= note.bar <= passage.last]
        if each.joins:
            name = f"{each.first_lick.name}-to-{each.second_lick.name}"
            title = f"{letters.said(each.first_lick)}, into {letters.said(each.second_lick)}"
        else:
            name = f"inside-{each.first_lick.name}"
            title = f"inside {letters.said(each.first_lick)}, {bars_words(each.bars)}"
        yield each, _excerpt(tune, band, name, title, passage, notes)


def _excerpt(
    tune: Tune,
    band: Sequence[Event],
    name: str,
    title: str,
    passage: Passage,
    notes: Sequence[Note],
) -> Excerpt:
    meter = tune.lesson.facts.meter
    start = float(tune.bars[passage.first].start / meter.beat)
    beats = float(passage.bars * meter.beats)
    return Excerpt(
        name=name,
        title=title,
        first=passage.first,
        beats=beats,
        guide=tuple(
            replace(event, start=event.start - start, length=min(event.length, end - event.start))
            for end in [start + beats]
            for event in guide_events(tune, notes)
        ),
        band=tuple(
            replace(event, start=event.start - start)
            for event in band
            if passage.first <= event.bar <= passage.last
        ),
    )


def _lead(events: Iterable[Event]) -> float:
    """Beats from the first event to the bar line at beat 0; 0 where none is before it."""
    return max(0.0, -min((event.start for event in events), default=0.0))


def _looped(excerpt: Excerpt, tune: Tune) -> Excerpt:
    """A loop; bars of rest are added at its end if its pick-up has no room there."""
    end = max((event.start + event.length for event in excerpt.guide), default=0.0)
    again = _lead(event for event in excerpt.guide if not event.once)
    wanted = end + again - excerpt.beats
    if wanted <= _NEAR:
        return excerpt
    beats = tune.lesson.facts.meter.beats
    return replace(excerpt, beats=excerpt.beats + beats * ceil((wanted - _NEAR) / beats))
