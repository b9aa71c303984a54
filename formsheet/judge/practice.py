"""How a tune is practised: each lick and move from its own tempo on, and where there is air.

Everything here follows from moves (`joins.py`), ladders (`ladder.py`) and breath (`breath.py`);
`practice_words.py` puts it into words.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.judge.breath import BreathFit, judge_breath, places_to_breathe
from formsheet.judge.joins import PlayedMove, find_moves
from formsheet.judge.ladder import own_ladder, tune_ladder
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


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest that is long enough to breathe in at the tune's tempo."""

    note: int  # index of the note before it
    bar: int  # index of the bar in which it begins


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
    def join(self) -> PlayedMove | None:
        """The join to practise first: the hardest; of those easy at the target no loop."""
        joins = [each for each in self.moves if each.joins]
        hard = [each for each in joins if each.easy_tempo < self.target]
        return next(iter([*hard, *(each for each in joins if not each.loops)]), None)

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
        yield Rest(index, bisect_right(starts, tune.notes[index].end) - 1)
