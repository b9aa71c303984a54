"""Can this harp play it? Each check is a function of one mark of tab; `CHECKS` lists them.

One breath at a time; bends only on single notes; a split reaches five holes at most (common
practice, no source). The bends and overbends of a hole follow from its reeds, see
`music/harp.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from formsheet.lesson.model import Lick, LickMark
from formsheet.music import pitch
from formsheet.music.harp import Harp
from formsheet.music.tab import WIDEST_REACH, Breath, Shape, Tab
from formsheet.problems import kinds
from formsheet.problems.problem import Problem

Check = Callable[[LickMark, Tab, Harp], Problem | None]


def holes_in_order(mark: LickMark, tab: Tab, _: Harp) -> Problem | None:
    """Holes are written low to high, each once."""
    ordered = tuple(sorted(set(tab.holes)))
    if tab.holes == ordered:
        return None
    guess = Tab(ordered, tab.breath, tab.bend, tab.overbend)
    return kinds.HolesOrder(mark.span, tab=str(tab), guess=str(guess))


def neighbours_or_split(mark: LickMark, tab: Tab, _: Harp) -> Problem | None:
    """A block has neighbouring holes; a split has two outer holes."""
    if tab.shape is not Shape.SPLIT or len(tab.holes) == 2 or tab.holes != _ordered(tab):
        return None
    low, high = tab.holes[0], tab.holes[-1]
    block = Tab(tuple(range(low, high + 1)), tab.breath)
    split = Tab((low, high), tab.breath)
    return kinds.HolesGap(mark.span, tab=str(tab), block=str(block), split=str(split))


def within_reach(mark: LickMark, tab: Tab, harp: Harp) -> Problem | None:
    """The mouth covers five holes at most."""
    if tab.span <= WIDEST_REACH:
        return None
    low = tab.holes[0]
    if tab.shape is Shape.SPLIT:
        split = Tab((low, low + WIDEST_REACH - 1), tab.breath)
        return kinds.SplitTooWide(
            mark.span,
            tab=str(tab),
            holes=tab.span,
            most=WIDEST_REACH,
            split=str(split),
            breath=tab.breath.word,
            octaves=_octaves_near(tab, harp),
        )
    block = Tab(tab.holes[:WIDEST_REACH], tab.breath)
    return kinds.BlockTooWide(
        mark.span, tab=str(tab), holes=tab.span, most=WIDEST_REACH, block=str(block)
    )


def _octaves_near(tab: Tab, harp: Harp) -> list[str]:
    """Splits that sound an octave on the breath of a split, with its lower or its upper hole."""
    low, high = tab.holes[0], tab.holes[-1]
    splits = [Tab((low, low + reach), tab.breath) for reach in range(2, WIDEST_REACH)]
    splits += [Tab((high - reach, high), tab.breath) for reach in range(2, WIDEST_REACH)]
    octaves = []
    for split in splits:
        first, second = harp.pitches(split)
        if second - first == pitch.OCTAVE:
            octaves.append(str(split))
    return octaves


def bends_single(mark: LickMark, tab: Tab, _: Harp) -> Problem | None:
    """Bends and overbends are only for single notes."""
    if tab.shape is Shape.SINGLE or not (tab.bend or tab.overbend):
        return None
    plain = Tab(tab.holes, tab.breath)
    kind = _overbend_word(tab.breath) if tab.overbend else "bend"
    return kinds.BendOnChord(mark.span, tab=str(tab), kind=kind, plain=str(plain))


def bend_exists(mark: LickMark, tab: Tab, harp: Harp) -> Problem | None:
    """The deepest bend is a semitone above the other reed of the hole."""
    if tab.shape is not Shape.SINGLE or tab.overbend or not tab.bend:
        return None
    hole, deepest = tab.holes[0], harp.deepest_bend(tab.holes[0], tab.breath)
    if tab.bend <= deepest:
        return None
    breath = tab.breath.word
    if deepest:
        guess = str(Tab(tab.holes, tab.breath, deepest))
        return kinds.BendTooDeep(
            mark.span, hole=hole, breath=breath, asked=tab.bend, deepest=deepest, guess=guess
        )
    turned = Tab(tab.holes, tab.breath.other, tab.bend)
    return kinds.BendMissing(
        mark.span,
        hole=hole,
        breath=breath,
        other=tab.breath.other.word,
        plain=str(Tab(tab.holes, tab.breath)),
        guess=str(turned) if harp.can_play(turned) else None,
        shade=harp.bends(Tab(tab.holes, tab.breath)),
    )


def overbend_exists(mark: LickMark, tab: Tab, harp: Harp) -> Problem | None:
    """A hole overblows if its higher reed is the draw reed, and overdraws if the blow reed is."""
    if tab.shape is not Shape.SINGLE or not tab.overbend:
        return None
    kind = _overbend_word(tab.breath)
    if tab.bend:
        plain = Tab(tab.holes, tab.breath, overbend=True)
        return kinds.OverbendBent(mark.span, tab=str(tab), kind=kind, plain=str(plain))
    if harp.can_play(tab):
        return None
    turned = Tab(tab.holes, tab.breath.other, overbend=True)
    guess = str(turned) if harp.can_play(turned) else None
    return kinds.OverbendMissing(
        mark.span,
        kind=kind,
        hole=tab.holes[0],
        other=_overbend_word(tab.breath.other),
        guess=guess,
    )


def _overbend_word(breath: Breath) -> str:
    return f"over{breath.word}"


def _ordered(tab: Tab) -> tuple[int, ...]:
    return tuple(sorted(set(tab.holes)))


CHECKS: tuple[Check, ...] = (
    holes_in_order,
    neighbours_or_split,
    within_reach,
    bends_single,
    bend_exists,
    overbend_exists,
)


def judge_playable(licks: Iterable[Lick], harp: Harp) -> list[Problem]:
    """The problems of all notes in these licks that the harp cannot play."""
    return [
        problem
        for lick in {lick.span.place: lick for lick in licks}.values()  # each written lick once
        for mark in _marks(lick)
        if mark.tab
        for check in CHECKS
        if (problem := check(mark, mark.tab, harp))
    ]


def _marks(lick: Lick) -> Iterator[LickMark]:
    yield from lick.pickup
    for bar in lick.bars:
        yield from bar
