"""What is offered of a lick on other chords: as it is, and the recasts that a player would play."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from formsheet.judge.findings import Reported
from formsheet.judge.verdicts import Verdict
from formsheet.judge.where import WELL
from formsheet.lesson.model import AskedBar, Lick
from formsheet.music.form import FormBar
from formsheet.music.tab import Tab
from formsheet.recast.character import Character
from formsheet.recast.played import Played, alone
from formsheet.recast.target import asked_bars
from formsheet.recast.trial import Tried, tried_recasts
from formsheet.tune.place import meets

#: A lick that may stay as it is, though it does not fit well, is offered beside good recasts if
#: more of its time fits than this: before them if it is of the blues scale or has no avoid note,
#: else behind them. Our own choice.
MOSTLY = Fraction(1, 2)
#: The blues scale, in semitones above the key note. Common practice, no source.
BLUES_SCALE = frozenset({0, 3, 5, 6, 7, 10})
_OCTAVE = 12
#: The most recasts offered, and the most bends by which one may be worse than the best of them. Our
#: own choice.
MOST_OFFERED = 3
MOST_WORSE = 6
#: An offer differs in more than this share of its notes from each better one, and from the lick
#: where that may stay. Our own choice.
LEAST_NEW = Fraction(1, 3)


@dataclass(frozen=True)
class AsItIs:
    """A lick left unchanged over other chords."""

    lick: Lick
    chords: tuple[FormBar, ...]
    played: Played

    @property
    def clashes(self) -> list[Reported]:
        """The notes for which it cannot stay."""
        return self.played.placement.clashes

    @property
    def rides(self) -> bool:
        """Whether it may ride over a change: it is of the blues scale, or has no avoid note."""
        key = self.played.tune.lesson.key.pitch_class
        notes = self.played.placement.notes
        blues = all((m - key) % _OCTAVE in BLUES_SCALE for fit in notes for m in fit.note.midi)
        return blues or all(max(fit.verdicts) is not Verdict.AVOID for fit in notes)

    @property
    def first(self) -> bool:
        """Whether it comes before all recasts: it fits well, or rides and most of it fits."""
        placement = self.played.placement
        if self.clashes:
            return False
        return placement.verdict == WELL or (self.rides and placement.score > MOSTLY)

    @property
    def hardly(self) -> bool:
        """Whether it draws no warning, but little of it fits."""
        placement = self.played.placement
        return bool(placement.notes) and not self.clashes and placement.score <= MOSTLY

    @property
    def written(self) -> bool:
        """Whether its `on` allows these chords already."""
        return all(map(meets, self.chords, self.lick.on))

    @property
    def on(self) -> tuple[AskedBar, ...] | None:
        """Its `on` with the new chords added; None if a bar is divided otherwise than there."""
        new = asked_bars(self.chords)
        if any(len(old) != len(bar) for old, bar in zip(self.lick.on, new, strict=True)):
            return None
        return tuple(
            tuple(
                old if any(chord.meets(each) for each in old) else (*old, *asked)
                for old, asked, chord in zip(*bars, strict=True)
            )
            for bars in zip(self.lick.on, new, self.chords, strict=True)
        )


@dataclass(frozen=True)
class Offers:
    """All ways of playing a lick over some chords."""

    as_it_is: AsItIs
    recasts: tuple[Tried, ...]  # best first

    @cached_property
    def good(self) -> list[Tried]:
        """The recasts with which nothing is wrong, few, and none much worse than the best."""
        found: list[Tried] = []
        home = self.recasts[0].home.tabs if self.recasts and not self.as_it_is.clashes else None
        for each in self.recasts:
            if len(found) == MOST_OFFERED or not each.good:
                break
            near = not found or each.against <= found[0].against + MOST_WORSE
            others = [*(other.tabs for other in found), *([home] if home else [])]
            if near and all(_differ(each.tabs, other) for other in others):
                found.append(each)
        return found

    def shown(self, everything: bool = False) -> list[AsItIs | Tried]:
        """What is offered, in order: the lick as it is, and the good recasts.

        Where neither is good, the best of the other recasts. `everything`: all recasts.
        """
        way = self.as_it_is
        if way.clashes:
            return list(self.recasts if everything else self.good or self.recasts[:1])
        if way.first:
            return [way, *(self.recasts if everything else self.good)]
        if everything:
            count = sum(each.good for each in self.recasts)
            return [*self.recasts[:count], way, *self.recasts[count:]]
        if self.good:
            return [*self.good, *([] if way.hardly else [way])]
        return [way, *(self.recasts[:1] if way.hardly else ())]


def _differ(first: Sequence[Tab], second: Sequence[Tab]) -> bool:
    new = sum(one != other for one, other in zip(first, second, strict=True))
    return new > LEAST_NEW * len(first)


def offers(
    home: Character, new: Lick, chords: Sequence[FormBar], licks: Mapping[str, Lick],
    overbends: bool = False,
) -> Offers:  # fmt: skip
    """The lick as it is, and its recasts under the name of `new`."""
    facts, key, bars = home.facts, home.key, tuple(chords)
    as_it_is = AsItIs(home.lick, bars, alone(home.lick, bars, facts, key, licks))
    tried = tried_recasts(home, new, bars, licks, overbends)
    other = [each for each in tried if each.tabs != home.tabs]
    return Offers(as_it_is, tuple(other))
