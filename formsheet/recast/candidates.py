"""The candidates for recasting a lick: in each octave, faithful and with fewer bends."""

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

# Cost of a move in another direction than in the lick: level, or the opposite direction.
_LEVELLED, _TURNED = 1, 3
#: Cost of one of these in bends, in lines that may trade it for a nearer note.
OFF_CONTOUR = 4
#: Cost in bends of a move more than a fifth wider or narrower than in the lick: it breaks the line.
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
    contour: int  # 0: every move goes in the direction it has in the lick
    torn: int  # number of moves more than a fifth off their size in the lick

    @property
    def replaced(self) -> list[tuple[Wanted, Choice]]:
        """The sounds that were replaced, with their replacements."""
        pairs = zip(self.wanted, self.choices, strict=True)
        return [(wanted, choice) for wanted, choice in pairs if choice.kept is not Kept.EXACT]

    @property
    def away(self) -> int:
        """The total distance of all replacements from the wanted sounds, in bends."""
        return sum(choice.cost.replaced for choice in self.choices)

    @property
    def bends(self) -> int:
        """The number of its bent or overbent notes."""
        return sum(bool(choice.tab.bend or choice.tab.overbend) for choice in self.choices)


def recasts(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, overbends: bool = False
) -> list[Recast]:
    """All different candidates, unsorted."""
    overbends = overbends or _overbent(lick)  # allowed if the lick itself has one
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
    """Whether a note that the harp has without a bend was replaced to keep the contour."""
    return any(
        here.kept is not Kept.EXACT
        and any(choice.kept is Kept.EXACT and not choice.cost.burden for choice in way)
        for here, way in zip(line, ways, strict=True)
    )


def _moves(wanted: Sequence[Wanted], strict: bool) -> Step:
    """The cost of a move by its direction and size, compared with the lick.

    A strict line keeps the direction wherever it can; another trades it for a note nearer to the
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
    """The cost of a move to a sound in another direction than in the lick."""
    first, second = wanted[index - 1], wanted[index]
    asked = _direction(first.sound.midi, second.sound.midi)
    played = _direction(last.midi, here.midi)
    if asked == played or _changes(first, second):
        return 0  # the line moves with a change of chord
    return _TURNED if asked * played < 0 else _LEVELLED


def _torn(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> bool:
    """Whether the size of a move between single notes is more than a fifth off that in the lick.

    Chords beside the melody may be anywhere.
    """
    first, second = wanted[index - 1].sound, wanted[index].sound
    if len(first.midi) > 1 or len(second.midi) > 1:
        return False
    asked = second.midi[0] - first.midi[0]
    return abs(here.midi[-1] - last.midi[-1] - asked) > _A_FIFTH


def _changes(first: Wanted, second: Wanted) -> bool:
    """Whether the chord changes between two sounds in another way than in the lick."""
    before = (second.old.root - first.old.root) % 12
    return (second.new.root - first.new.root) % 12 != before


def _direction(first: Sequence[int], second: Sequence[int]) -> int:
    """Direction of the top notes: 1 up, -1 down, 0 level."""
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
