"""The ways of recasting a lick: in each octave, as it is and with fewer bends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

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
#: What one of these counts in bends, where a note nearer to the wanted one is worth it.
OFF_CONTOUR = 4
#: A move more than a fifth wider or narrower than the lick's, in bends: the ear loses the line.
OFF_SIZE = 6
_A_FIFTH = 7


@dataclass(frozen=True)
class Recast:
    """A lick on other chords."""

    lick: Lick  # with its new tab, written on the new chords
    chords: tuple[FormBar, ...]
    shift: int  # semitones by which the root under its first note moves
    wanted: tuple[Wanted, ...]
    choices: tuple[Choice, ...]  # one for each of `wanted`
    contour: int  # 0: it moves as the lick does everywhere
    torn: int  # moves that are more than a fifth off their size in the lick

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
        ways = tuple(options(each, key, facts.harp, overbends) for each in wanted)
        easy = tuple(tuple(map(eased, way)) for way in ways)
        lines = [_best(wanted, ways), _best(wanted, easy)]
        if _gives_way(lines[0], ways):
            lines.append(_best(wanted, ways, strict=False))
        for line in lines:
            each = _recast(lick, chords, shift, wanted, ways, line)
            same = tuple(str(choice.tab) for choice in each.choices)
            found[same] = min(found.get(same, each), each, key=lambda way: way.away)
    return list(found.values())


def _recast(
    lick: Lick, chords: Sequence[FormBar], shift: int, wanted: tuple[Wanted, ...],
    ways: Sequence[tuple[Choice, ...]], line: Sequence[Choice],
) -> Recast:  # fmt: skip
    found = tuple(
        next(choice for choice in way if choice.tab == each.tab)
        for way, each in zip(ways, line, strict=True)
    )
    new = replace(_with_tabs(lick, found), on=asked_bars(chords))
    moves = [(index, *pair) for index, pair in enumerate(pairwise(found), start=1)]
    contour = sum(_off_contour(wanted, *each) for each in moves)
    torn = sum(_torn(wanted, *each) for each in moves)
    return Recast(new, tuple(chords), shift, wanted, found, contour, torn)


def _best(
    wanted: Sequence[Wanted], ways: Sequence[tuple[Choice, ...]], strict: bool = True
) -> Sequence[Choice]:
    return best_line(as_line(wanted), ways, _moves(wanted, strict))[1]


def _gives_way(line: Sequence[Choice], ways: Sequence[tuple[Choice, ...]]) -> bool:
    """Whether a note that the harp has unbent was replaced, so that the line moves as it should."""
    return any(
        here.kept is not Kept.EXACT
        and any(choice.kept is Kept.EXACT and not choice.cost.burden for choice in way)
        for here, way in zip(line, ways, strict=True)
    )


def _moves(wanted: Sequence[Wanted], strict: bool) -> Step:
    """What a move costs: whether it goes the way of the lick, and as far.

    A strict line goes that way wherever it can; another gives that up for a note nearer to the
    wanted one.
    """

    def step(index: int, last: Choice, here: Choice) -> Cost:
        off = _off_contour(wanted, index, last, here)
        return Cost(
            missing=off if strict else 0,
            replaced=OFF_CONTOUR * off + OFF_SIZE * _torn(wanted, index, last, here),
            strain=strain(last.tab, here.tab, wanted[index].sound.gap),
        )

    return step


def _off_contour(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> int:
    """How far the move to a sound is from the direction that it has in the lick."""
    first, second = wanted[index - 1], wanted[index]
    asked = _direction(first.sound.midi, second.sound.midi)
    played = _direction(last.midi, here.midi)
    if asked == played or _changes(first, second):
        return 0  # where the chord changes, the line moves with it
    return _TURNED if asked * played < 0 else _LEVELLED


def _torn(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> bool:
    """Whether a move from note to note is not near the size that it has in the lick.

    A chord struck beside the melody may lie anywhere.
    """
    first, second = wanted[index - 1].sound, wanted[index].sound
    if len(first.midi) > 1 or len(second.midi) > 1:
        return False
    asked = second.midi[0] - first.midi[0]
    return abs(here.midi[-1] - last.midi[-1] - asked) > _A_FIFTH


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
            mark._replace(tab=next(tabs).tab) if mark.kind is Kind.NOTE else mark for mark in bar
        )

    pickup = tabbed(lick.pickup)
    return replace(lick, pickup=pickup, bars=tuple(map(tabbed, lick.bars)))


def _overbent(lick: Lick) -> bool:
    marks = (mark for bar in (lick.pickup, *lick.bars) for mark in bar)
    return any(mark.tab is not None and mark.tab.overbend for mark in marks)
