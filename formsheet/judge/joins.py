"""Joins: from the end of one lick to the start of the next, or to its own start when it loops.

A join is easy at the tempo at which the time from one onset to the next is the time that the
move takes at ease (`effort.py`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.judge.effort import Move, move
from formsheet.lesson.model import Lick
from formsheet.tune.passages import Passage
from formsheet.tune.timeline import Note, Tune, goes_on


@dataclass(frozen=True, slots=True)
class Join:
    """The last note of a lick, the first of the next, and all bars where this join is played."""

    first_lick: Lick
    second_lick: Lick
    last: Note  # of the first lick, where the join is first played
    first: Note  # of the second
    move: Move
    beats: float  # from onset to onset, swing included
    bars: tuple[int, ...]  # numbers of the bars that the second lick starts in, each once

    @property
    def loops(self) -> bool:
        """Whether the join is from a lick to itself."""
        return self.first_lick.name == self.second_lick.name

    @property
    def easy_tempo(self) -> float:
        """The tempo in beats a minute up to which the join is easy."""
        return 60 * self.beats / self.move.seconds

    @property
    def passage(self) -> Passage:
        """Where the join is first played: from the bar of its last note to that of its first.

        Whole bars, so that the count stays the same when it is looped.
        """
        return Passage(self.last.bar, self.first.home)


#: Least number of joins to practise, even if all are easy at full tempo: the joins are what a
#: student who knows every lick has not played yet. Our own choice.
ALWAYS = 3


def hardest(joins: Sequence[Join], target: float, most: int) -> list[Join]:
    """The joins to practise by themselves, hardest first, at most `most`.

    `target` is in beats a minute; `joins` is sorted, hardest first. Joins that are easy at the
    target only fill up to `ALWAYS`, and a lick looping on itself is then left out: playing the
    lick round practises it.
    """
    hard = [join for join in joins if join.easy_tempo < target]
    easy = [join for join in joins if join.easy_tempo >= target and not join.loops]
    return [*hard, *easy[: max(0, ALWAYS - len(hard))]][:most]


def find_joins(tune: Tune) -> list[Join]:
    """Every join in the tune, hardest first; equal ones (same licks, tab and time) once."""
    tempo = float(tune.lesson.facts.tempo)
    found: dict[tuple[object, ...], list[tuple[Note, Note]]] = {}
    for last, first in _pairs(tune):
        beats = round((first.start_s - last.start_s) * tempo / 60, 6)
        key = (_lick(tune, last).name, _lick(tune, first).name, last.tab, first.tab, beats)
        found.setdefault(key, []).append((last, first))
    joins = [
        Join(
            first_lick=_lick(tune, last),
            second_lick=_lick(tune, first),
            last=last,
            first=first,
            move=move(last.tab, first.tab),
            beats=(first.start_s - last.start_s) * tempo / 60,
            bars=tuple(sorted({tune.bars[each.home].number for _, each in pairs})),
        )
        for pairs in found.values()
        for last, first in pairs[:1]
    ]
    return sorted(joins, key=lambda join: join.easy_tempo)


def _lick(tune: Tune, note: Note) -> Lick:
    lick = tune.bars[note.home].lick
    assert lick is not None  # notes come from licks only
    return lick


def _pairs(tune: Tune) -> Iterator[tuple[Note, Note]]:
    """Consecutive notes that belong to different placements of a lick."""
    starts = _placements(tune)
    for last, first in zip(tune.notes, tune.notes[1:], strict=False):
        if starts[last.home] != starts[first.home]:
            yield last, first


def _placements(tune: Tune) -> list[int]:
    """For each bar, the index of the bar in which its lick started, or was entered midway."""
    starts: list[int] = []
    for index, bar in enumerate(tune.bars):
        on = index and goes_on(tune.bars[index - 1], bar)
        starts.append(starts[-1] if on else index)
    return starts
