"""The ways of recasting a lick: in each octave, as it is and with fewer bends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from formsheet.arrange.choices import Choice
from formsheet.arrange.cost import Cost, strain
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.search import Step, best_line
from formsheet.lesson.model import Facts, Kind, Lick, LickBar
from formsheet.music.form import FormBar
from formsheet.music.key import Key
from formsheet.recast.options import eased, options
from formsheet.recast.target import Wanted, as_line, asked_bars, plans, wanted_line

# What it costs where the line does not move as the lick does: it stays, or turns the other way.
_LEVELLED, _TURNED = 1, 3


@dataclass(frozen=True)
class Recast:
    """A lick on other chords."""

    lick: Lick  # with its new tab, written on the new chords
    chords: tuple[FormBar, ...]
    shift: int  # semitones by which the root under its first note moves
    wanted: tuple[Wanted, ...]
    choices: tuple[Choice, ...]  # one for each of `wanted`
    contour: int  # 0: it moves as the lick does everywhere

    @property
    def replaced(self) -> list[tuple[Wanted, Choice]]:
        """The sounds that something else stands in for."""
        pairs = zip(self.wanted, self.choices, strict=True)
        return [(wanted, choice) for wanted, choice in pairs if choice.kept is not Kept.EXACT]

    @property
    def away(self) -> int:
        """How far from what was wanted all stand-ins are together, in bends."""
        return sum(choice.cost.replaced for choice in self.choices)

    @property
    def bends(self) -> int:
        """How many of its notes are bent or overblown."""
        return sum(bool(choice.tab.bend or choice.tab.overbend) for choice in self.choices)


def recasts(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, overbends: bool = False
) -> list[Recast]:
    """Every way that differs from the others, in no order."""
    overbends = overbends or _overbent(lick)  # who plays one in the lick can play another
    found: dict[tuple[str, ...], Recast] = {}
    for plan in plans(lick, chords):
        wanted = wanted_line(lick, chords, facts, key, plan)
        shift = next(iter(plan.values()))
        for easy in (False, True):
            each = _recast(lick, chords, facts, key, shift, wanted, overbends, easy)
            same = tuple(str(choice.tab) for choice in each.choices)
            found[same] = min(found.get(same, each), each, key=lambda way: way.away)
    return list(found.values())


def _recast(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, shift: int,
    wanted: tuple[Wanted, ...], overbends: bool, easy: bool,
) -> Recast:  # fmt: skip
    line = as_line(wanted)
    ways = [options(each, key, facts.harp, overbends) for each in wanted]
    weighed = [tuple(map(eased, way)) for way in ways] if easy else ways
    cost, best = best_line(line, weighed, _moves(wanted))
    found = tuple(
        next(choice for choice in way if choice.tab == each.tab)
        for way, each in zip(ways, best, strict=True)
    )
    new = replace(_with_tabs(lick, found), on=asked_bars(chords))
    return Recast(new, tuple(chords), shift, wanted, found, cost.missing)


def _moves(wanted: Sequence[Wanted]) -> Step:
    """What a move costs: first of all, whether it goes the way of the lick."""

    def step(index: int, last: Choice, here: Choice) -> Cost:
        first, second = wanted[index - 1], wanted[index]
        asked = _direction(first.sound.midi, second.sound.midi)
        played = _direction(last.midi, here.midi)
        off = 0 if asked == played else _TURNED if asked * played < 0 else _LEVELLED
        if _changes(first, second):
            off = 0  # the line moves with the chord
        return Cost(missing=off, strain=strain(last.tab, here.tab, second.sound.gap))

    return step


def _changes(first: Wanted, second: Wanted) -> bool:
    """Whether the chord changes between two sounds otherwise than it did in the lick."""
    before = (second.old.root - first.old.root) % 12
    return (second.new.root - first.new.root) % 12 != before


def _direction(first: Sequence[int], second: Sequence[int]) -> int:
    """Up 1, down -1, level 0, by the top notes."""
    return (second[-1] > first[-1]) - (second[-1] < first[-1])


def _with_tabs(lick: Lick, choices: Sequence[Choice]) -> Lick:
    tabs = iter(choices)

    def tabbed(bar: LickBar) -> LickBar:
        return tuple(
            replace(mark, tab=next(tabs).tab) if mark.kind is Kind.NOTE else mark for mark in bar
        )

    pickup = tabbed(lick.pickup)
    return replace(lick, pickup=pickup, bars=tuple(map(tabbed, lick.bars)))


def _overbent(lick: Lick) -> bool:
    marks = (mark for bar in (lick.pickup, *lick.bars) for mark in bar)
    return any(mark.tab is not None and mark.tab.overbend for mark in marks)
