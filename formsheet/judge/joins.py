"""The moves of a tune, inside licks and across joins, each with the tempo at which it is easy.

A join leads from the end of one lick to the start of the next, or to its own start when it loops.
A move is easy at the tempo at which the time from one onset to the next is the time that the move
takes at ease (`effort.py`). In a row of hard moves each is harder than alone: a share of the
effort of the moves before it is added, as far as no easier move or rest lies between. Our own
choice.
"""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from collections.abc import Hashable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from formsheet.judge.effort import NEW_NOTE, Move, effort_of, move
from formsheet.lesson.model import Lick
from formsheet.tune.passages import Passage
from formsheet.tune.timeline import Note, Tune, goes_on

#: The share of the effort of each move before it that makes a move in a row harder.
ROW_SHARE = 0.125
#: How many moves before it count.
ROW = 4


class PlayedMove(NamedTuple):
    """Two notes that follow each other, and all bars where they do so in this way."""

    first_lick: Lick
    second_lick: Lick
    last: Note  # where the move is hardest, first of all
    first: Note  # the note that it leads to
    move: Move
    beats: float  # from onset to onset, swing included
    easy_tempo: float  # beats a minute up to which it is easy, the moves before it included
    joins: bool  # leads from one placement of a lick to the next
    bars: tuple[int, ...]  # numbers of the bars it leads into, each once

    @property
    def loops(self) -> bool:
        """Whether it is a join of a lick with itself."""
        return self.joins and self.first_lick.name == self.second_lick.name

    @property
    def passage(self) -> Passage:
        """Where it is hardest: from the bar of its last note to that of its first.

        Whole bars, so that the count stays the same when it is looped.
        """
        return Passage(self.last.bar, self.first.home)


class Pair(NamedTuple):
    """Two notes that follow each other: a move, as often as it is played."""

    last: Note
    first: Note
    joins: bool  # leads from one placement of a lick to the next
    beats: float  # from onset to onset, swing included
    load: float  # seconds that it needs for each beat, the moves before it included

    @property
    def easy_tempo(self) -> float:
        """Beats a minute up to which it is easy."""
        return 60 / self.load


def pairs_of(tune: Tune) -> list[Pair]:
    """All moves of the tune in order of time.

    A note struck again inside a lick is left out: there is nothing to practise in it.
    """
    to_beats = float(tune.lesson.facts.tempo) / 60
    starts = _placements(tune)
    pairs: list[Pair] = []
    row: list[float] = []  # effort of the moves before, in seconds for each beat, the last first
    for last, first in pairwise(tune.notes):
        beats = (first.start_s - last.start_s) * to_beats
        effort = effort_of(last.tab, first.tab) / beats
        load, least = NEW_NOTE / beats + effort, effort
        for before in row:
            least = min(least, before)
            load += ROW_SHARE * least
        row = [effort, *row[: ROW - 1]]
        joins = starts[last.home] != starts[first.home]
        if joins or effort or last.tab != first.tab:
            pairs.append(Pair(last, first, joins, beats, load))
    return pairs


#: Least number of joins to practise, even if all are easy at full tempo: the joins are what a
#: student who knows every lick has not played yet. Our own choice.
ALWAYS = 3


def hardest(moves: Sequence[PlayedMove], target: float, most: int) -> list[PlayedMove]:
    """The moves to practise by themselves, hardest first, at most `most`.

    `target` is in beats a minute; `moves` is sorted, hardest first. Joins that are easy at the
    target fill up to `ALWAYS`, and only joins between two licks: playing a lick round practises the
    others. Moves inside licks leave half of the places to so many joins.
    """
    joins = [each for each in moves if each.joins]
    hard = [each for each in joins if each.easy_tempo < target]
    easy = [each for each in joins if each.easy_tempo >= target and not each.loops]
    joins = [*hard, *easy[: max(0, ALWAYS - len(hard))]]
    sure = min(ALWAYS, (most + 1) // 2)
    others = sorted([*joins[sure:], *_inside(moves, target)], key=lambda each: each.easy_tempo)
    found = [*joins[:sure], *others][:most]
    return sorted(found, key=lambda each: each.easy_tempo)


def _inside(moves: Sequence[PlayedMove], target: float) -> Iterator[PlayedMove]:
    """The hard moves inside licks, one a bar: whole bars are looped, so it brings the others."""
    taken: set[tuple[str, object]] = set()
    for each in moves:
        keys = {(each.first_lick.name, key) for key in (each.bars, each.passage)}
        if not each.joins and each.easy_tempo < target and not keys & taken:
            taken |= keys
            yield each


def find_moves(tune: Tune, pairs: Sequence[Pair] | None = None) -> list[PlayedMove]:
    """Every move of the tune, hardest first. `pairs` are those of the tune, if they are known.

    A join is there once for each pair of licks, tab and time, a move inside a lick once for each
    two tabs, each where it is hardest.
    """
    found: dict[tuple[object, ...], list[Pair]] = {}
    for pair in pairs_of(tune) if pairs is None else pairs:
        tabs = pair.last.tab, pair.first.tab
        licks = tune.lick_of(pair.last), tune.lick_of(pair.first)
        time = round(pair.beats, 6) if pair.joins else None
        found.setdefault((*licks, *tabs, time), []).append(pair)
    moves = [_played(tune, alike) for alike in found.values()]
    return sorted(moves, key=lambda each: each.easy_tempo)


def _played(tune: Tune, alike: Sequence[Pair]) -> PlayedMove:
    """The hardest of pairs that are alike, the first of several, with the bars of all."""
    worst = max(alike, key=lambda pair: round(pair.load, 6))
    return PlayedMove(
        first_lick=_lick(tune, worst.last),
        second_lick=_lick(tune, worst.first),
        last=worst.last,
        first=worst.first,
        move=move(worst.last.tab, worst.first.tab),
        beats=worst.beats,
        easy_tempo=worst.easy_tempo,
        joins=worst.joins,
        bars=tuple(sorted({tune.bars[each.first.home].number for each in alike})),
    )


def find_joins(tune: Tune) -> list[PlayedMove]:
    """Every join of the tune, hardest first."""
    return [each for each in find_moves(tune) if each.joins]


class JoinedMarks(NamedTuple):
    """Two written marks that follow each other where one lick leads into the next."""

    last: Hashable  # place of the mark in the text
    first: Hashable
    gap: Fraction  # quarters from onset to onset


def joined_marks(tune: Tune) -> list[JoinedMarks]:
    """The marks of all joins, each pair once, in order of time."""
    found = (
        JoinedMarks(last.mark.span.place, first.mark.span.place, first.start - last.start)
        for last, first, joins, *_ in pairs_of(tune)
        if joins
    )
    return list(dict.fromkeys(found))


def _lick(tune: Tune, note: Note) -> Lick:
    lick = tune.bars[note.home].lick
    assert lick is not None  # notes come from licks only
    return lick


def _placements(tune: Tune) -> list[int]:
    """For each bar, the index of the bar in which its lick started, or was entered midway."""
    starts: list[int] = []
    for index, bar in enumerate(tune.bars):
        on = index and goes_on(tune.bars[index - 1], bar)
        starts.append(starts[-1] if on else index)
    return starts
