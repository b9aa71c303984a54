"""The moves of a tune, inside licks and across joins, each with the tempo at which it is easy.

A join leads from the end of one lick to the start of the next, or to its own start when it loops.
A move is easy at the tempo at which the time from one onset to the next is the time that the move
takes at ease (`effort.py`). In a row of hard moves each is harder than alone: a share of the
effort of the moves before it is added. Our own choice.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from formsheet.judge.effort import Move, move
from formsheet.lesson.model import Lick
from formsheet.tune.passages import Passage
from formsheet.tune.timeline import Note, Tune, goes_on

#: The share of the effort of each move before it that makes a move in a row harder.
ROW_SHARE = 0.125
#: How many moves before it count.
ROW = 4


@dataclass(frozen=True, slots=True)
class PlayedMove:
    """Two notes that follow each other, and all bars where they do so in this way."""

    first_lick: Lick
    second_lick: Lick
    last: Note  # where the move is first played
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
        """Where it is first played: from the bar of its last note to that of its first.

        Whole bars, so that the count stays the same when it is looped.
        """
        return Passage(self.last.bar, self.first.home)


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


def find_moves(tune: Tune) -> list[PlayedMove]:
    """Every move of the tune, hardest first.

    A join is there once for each pair of licks, tab and time; of the moves inside a lick those
    between the same two tabs are there once, where they are hardest, and a repeated note is left
    out: it is no move to practise.
    """
    tempo = float(tune.lesson.facts.tempo)
    found: dict[tuple[object, ...], dict[tuple[float, float], list[_Pair]]] = {}
    for pair in _pairs(tune, tempo):
        last, first = pair.last, pair.first
        if not pair.joins and last.tab == first.tab:
            continue
        licks = _lick(tune, last).name, _lick(tune, first).name
        times = (round(pair.beats, 6), round(pair.load, 6))
        found.setdefault((*licks, pair.joins, last.tab, first.tab), {}).setdefault(
            times, []
        ).append(pair)
    moves = [
        PlayedMove(
            first_lick=_lick(tune, pair.last),
            second_lick=_lick(tune, pair.first),
            last=pair.last,
            first=pair.first,
            move=move(pair.last.tab, pair.first.tab),
            beats=pair.beats,
            easy_tempo=60 / pair.load,
            joins=pair.joins,
            bars=tuple(sorted({tune.bars[each.first.home].number for each in pairs})),
        )
        for alike in found.values()
        for pairs in _apart(alike)
        for pair in pairs[:1]
    ]
    return sorted(moves, key=lambda each: each.easy_tempo)


def _apart(alike: dict[tuple[float, float], list[_Pair]]) -> list[list[_Pair]]:
    """Joins by their time; moves inside a lick together; the hardest first in each."""
    found: dict[float, list[_Pair]] = {}
    for (beats, _), pairs in sorted(alike.items(), key=lambda each: -each[1][0].load):
        found.setdefault(beats if pairs[0].joins else 0.0, []).extend(pairs)
    return list(found.values())


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
    starts = _placements(tune)
    return list(
        dict.fromkeys(
            JoinedMarks(last.mark.span.place, first.mark.span.place, first.start - last.start)
            for last, first in pairwise(tune.notes)
            if starts[last.home] != starts[first.home]
        )
    )


class _Pair(NamedTuple):
    """Two notes that follow each other."""

    last: Note
    first: Note
    joins: bool  # a join
    beats: float  # from onset to onset
    load: float  # seconds that it needs a beat, the moves before it included


def _pairs(tune: Tune, tempo: float) -> Iterator[_Pair]:
    starts = _placements(tune)
    row: list[float] = []  # effort of the moves before, in seconds a beat
    for last, first in pairwise(tune.notes):
        beats = (first.start_s - last.start_s) * tempo / 60
        here = move(last.tab, first.tab)
        effort = here.effort / beats
        load = here.seconds / beats + ROW_SHARE * sum(min(each, effort) for each in row)
        row = [*row[1 - ROW :], effort] if ROW > 1 else [effort]
        yield _Pair(last, first, starts[last.home] != starts[first.home], beats, load)


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
