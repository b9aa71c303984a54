"""How a tune is practised: each lick and move from its own tempo on, and where there is air.

Everything here follows from moves (`joins.py`), ladders (`ladder.py`) and breath (`breath.py`);
`practice_words.py` puts it into words.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from formsheet.judge.breath import BreathFit, judge_breath, places_to_breathe
from formsheet.judge.joins import PlayedMove, find_moves
from formsheet.judge.ladder import (
    LARGEST_STEP,
    own_ladder,
    slowest_mark,
    start_tempo,
    tune_ladder,
)
from formsheet.judge.level import LIMITS
from formsheet.lesson.model import Lick
from formsheet.music.tab import Breath
from formsheet.tune.timeline import Tune


@dataclass(frozen=True, slots=True)
class LickPractice:
    """A lick by itself."""

    lick: Lick
    bars: tuple[int, ...]  # numbers of the bars in which it is played, each once
    fills: int  # bars of the whole tune that it fills, all choruses counted
    hardest: PlayedMove | None  # inside it; None where nothing moves
    ladder: tuple[Fraction, ...]  # beats a minute

    def easy_tempo(self, target: float) -> float:
        """The tempo up to which it is easy, in beats a minute, at most the target."""
        return min(target, self.hardest.easy_tempo) if self.hardest else target


#: The most licks and joins with hard moves that a plan names at once. Our own choice.
MOST_PLACES = 3


@dataclass(frozen=True, slots=True)
class HardPlace:
    """A lick or a join with its hard moves."""

    moves: tuple[PlayedMove, ...]  # hardest first

    @property
    def bars(self) -> tuple[int, ...]:
        """The numbers of the bars in which they are played, each once."""
        return tuple(sorted({bar for each in self.moves for bar in each.bars}))


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest that is long enough to breathe in at the tune's tempo."""

    note: int  # index of the note before it
    bar: int  # index of the bar in which it begins
    beat: int  # the beat on which it begins, from 1


@dataclass(frozen=True, slots=True)
class Practice:
    """All that a student needs to know to practise a tune."""

    tune: Tune
    moves: tuple[PlayedMove, ...]  # hardest first
    licks: tuple[LickPractice, ...]  # in order of appearance
    ladder: tuple[Fraction, ...]  # of the whole tune, in beats a minute
    breath: tuple[BreathFit, ...]  # at the start tempo, and at the tune's own if that is faster
    rests: tuple[Rest, ...]

    @property
    def target(self) -> Fraction:
        """The tempo of the tune, in beats a minute."""
        return self.tune.lesson.facts.tempo

    @property
    def air(self) -> float:
        """Seconds of a single note that the student has in or out, see `level.py`."""
        return LIMITS[self.tune.lesson.facts.level].air

    @property
    def first_lick(self) -> LickPractice | None:
        """The lick to learn first: easy, and much of the tune.

        The one with the most bars, each weighed by how near its own start is to the target. Our
        own choice: of two licks of the same length the easier one, of two that are as easy the one
        that is played more.
        """
        target = float(self.target)
        return max(self.licks, key=lambda each: each.fills * each.easy_tempo(target), default=None)

    @property
    def hardest(self) -> tuple[HardPlace, ...]:
        """Where the hardest move is, and moves of like hardness; none if all is easy."""
        return self._of_like_hardness([each for each in self.moves if self._is_hard(each)])

    @property
    def joins(self) -> tuple[HardPlace, ...]:
        """The joins to practise after the hardest moves: the hardest joins, else one to begin with.

        None if a join is among the hardest moves already. The one to begin with is no loop.
        """
        joins = [each for each in self.moves if each.joins]
        hard = [each for each in joins if self._is_hard(each)]
        named = [each for place in self.hardest for each in place.moves]
        if any(each in named for each in hard):
            return ()
        first = next((each for each in joins if not each.loops), None)
        return self._of_like_hardness(hard or ([first] if first else []))

    @property
    def start_without(self) -> Fraction | None:
        """Where the tune would start without its hardest place, in beats a minute.

        None unless that one place is why it starts at the slowest mark, by more than a step of a
        ladder.
        """
        slowest = slowest_mark(self.target)
        no_other = len(self.hardest) != 1 or (
            len(self.licks) == 1 and not self.hardest[0].moves[0].joins
        )
        if no_other or self.tune.lesson.facts.learn or self.ladder[0] > slowest:
            return None
        others = [each for each in self.moves if each not in self.hardest[0].moves]
        start = start_tempo(others, self.target)
        return start if start > slowest * LARGEST_STEP else None

    def _is_hard(self, each: PlayedMove) -> bool:
        return each.easy_tempo < self.target

    @staticmethod
    def _of_like_hardness(moves: Sequence[PlayedMove]) -> tuple[HardPlace, ...]:
        """The first of moves that are sorted, and those within a step of a ladder, by place."""
        places: dict[tuple[str, ...], list[PlayedMove]] = {}
        for each in moves:
            if each.easy_tempo > moves[0].easy_tempo * LARGEST_STEP:
                break
            licks = (each.first_lick, each.second_lick) if each.joins else (each.first_lick,)
            places.setdefault(tuple(lick.name for lick in licks), []).append(each)
        return tuple(HardPlace(tuple(each)) for each in islice(places.values(), MOST_PLACES))

    def is_full(self, fit: BreathFit) -> bool:
        """Whether the chest is full where it is furthest from the middle; else it is empty."""
        assert fit.peak_note is not None
        return self.tune.notes[fit.peak_note].tab.breath is Breath.DRAW

    @property
    def relief(self) -> Rest | None:
        """The rest that matters most: the first after the fullest or emptiest place.

        Where none follows, the last one before it; None where the tune has no rest.
        """
        peak = self.breath[0].peak_note
        if peak is None:
            return None
        after = (rest for rest in self.rests if rest.note >= peak)
        return next(after, self.rests[-1] if self.rests else None)


def practice_of(tune: Tune, moves: Sequence[PlayedMove] | None = None) -> Practice:
    """How a tune is practised; `moves`: those of `find_moves`, where they are known already."""
    moves = find_moves(tune) if moves is None else moves
    facts = tune.lesson.facts
    steps = tune_ladder(moves, facts)
    tempos = dict.fromkeys((steps[0], steps[-1]))
    return Practice(
        tune=tune,
        moves=tuple(moves),
        licks=tuple(_licks(tune, moves)),
        ladder=steps,
        breath=tuple(judge_breath(tune, float(tempo)) for tempo in tempos),
        rests=tuple(_rests(tune)),
    )


def inside(moves: Sequence[PlayedMove], lick: str) -> list[PlayedMove]:
    """The moves inside the lick of a name."""
    return [each for each in moves if not each.joins and each.first_lick.name == lick]


def lick_ladder(tune: Tune, moves: Sequence[PlayedMove], lick: str) -> tuple[Fraction, ...]:
    """The ladder of the lick of a name: from where its own hardest move is easy."""
    return own_ladder(inside(moves, lick), tune.lesson.facts)


def _licks(tune: Tune, moves: Sequence[PlayedMove]) -> Iterator[LickPractice]:
    played: dict[str, list[int]] = {}
    licks: dict[str, Lick] = {}
    for bar in tune.bars:
        if bar.lick:
            licks.setdefault(bar.lick.name, bar.lick)
            played.setdefault(bar.lick.name, []).append(bar.number)
    for name, numbers in played.items():
        own = inside(moves, name)
        yield LickPractice(
            lick=licks[name],
            bars=tuple(sorted(set(numbers))),
            fills=len(numbers),
            hardest=own[0] if own else None,
            ladder=own_ladder(own, tune.lesson.facts),
        )


def _rests(tune: Tune) -> Iterator[Rest]:
    starts = [bar.start for bar in tune.bars]
    for index in places_to_breathe(tune):
        end = tune.notes[index].end
        bar = bisect_right(starts, end) - 1
        beat = (end - starts[bar]) // tune.lesson.facts.meter.beat + 1
        yield Rest(index, bar, beat)
