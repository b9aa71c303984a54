"""Layout of a lick for the screen: bars a line and sizes, legible from a distance.

A screen of 1920 by 1080 pixels is a page of 18 pixels a millimetre, so that the comb is the same
as on paper. Lengths are millimetres of that page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil

from formsheet.sheet.draw.bar import BarPlan, lanes_of
from formsheet.sheet.draw.bar_lines import OUTSIDE
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import SCREEN_SIZES, Measures
from formsheet.sheet.draw.metrics import FIGURE_HEIGHT, MM_PER_PT
from formsheet.sheet.draw.note_box import TEAR, figure_size, stacked
from formsheet.sheet.draw.systems import (
    ACROSS,
    STACK_SHARE,
    Division,
    System,
    last_tab,
    systems,
)
from formsheet.sheet.view import Bar, Card, ChordMark, Chorus, HoleMark

SCALE = 18.0  # px a millimetre
LEAST_WORD = 8.7  # pt: 55 px
#: px: heights of a hole's figure on a screen of 1080 lines. A lick is shared out over several
#: screens where its figures would be less; those of a bar alone may be as low as `LEGIBLE`.
WISHED = 72.0
LEGIBLE = 48.0


@dataclass(frozen=True, slots=True)
class ScreenCard:
    """One screen: a lick, or a part of one that is too long for a single screen."""

    card: Card
    lines: tuple[tuple[System, float], ...]  # with the top of each
    height: float
    figure: float  # px: the height of its smallest single figure
    part: int = 1
    parts: int = 1


def screen_cards(
    card: Card, look: Look, width: float, depth: float, *, lines: int = ACROSS, heads: bool = True
) -> list[ScreenCard]:
    """A lick on as few screens (px) as possible with large figures.

    `lines`: most lines of bars on a screen. `heads`: chords are written over the bars.
    """
    if any(bar.marks and bar.marks[-1].tied_on for bar in card.bars):
        width -= TEAR * SCALE  # a box held over the end of a line reaches beyond it
    cards: list[ScreenCard] = []
    for count in range(1, len(card.bars) + 1):
        cards = list(_shared(card, count, look, width / SCALE, depth / SCALE, lines, heads))
        if all(one.figure >= WISHED for one in cards):
            break
    return cards


def _shared(
    card: Card, count: int, look: Look, width: float, depth: float, lines: int, heads: bool
) -> Iterator[ScreenCard]:
    """A lick divided over at most `count` screens."""
    each = ceil(len(card.bars) / count)
    parts = [card.bars[i : i + each] for i in range(0, len(card.bars), each)]
    before: HoleMark | None = None
    for i, bars in enumerate(parts):
        part = replace(card, bars=bars, degrees=(), pickup=None if i else card.pickup)
        tried = [
            _tried(part, across, measures, look, width, before, heads)
            for across in range(1, min(ACROSS, len(bars)) + 1)
            if ceil(len(bars) / across) <= lines
            for measures in SCREEN_SIZES
        ]
        fitting = [one for one in tried if one.height <= depth]
        best = max(
            fitting or [min(tried, key=lambda one: one.height)],
            key=lambda one: (round(one.figure), -one.height),
        )
        yield replace(best, part=i + 1, parts=len(parts))
        before = last_tab(bars, before)


def _tried(
    card: Card,
    across: int,
    measures: Measures,
    look: Look,
    width: float,
    before: HoleMark | None,
    heads: bool,
) -> ScreenCard:
    """A lick with these measures, `across` bars a line."""
    chorus = Chorus("", "", (tuple(_changes(card.bars)),), card.pickup, ending="line")
    division = Division(chorus, (), across, width + OUTSIDE, look)
    least = WISHED / SCALE / FIGURE_HEIGHT / MM_PER_PT
    found = [
        _headed(each, min(least, measures.hole), heads)
        for each in systems(division, measures, least, before, side_words=False)
    ]
    lines, y = [(found[0], 0.0)], 0.0
    for above, below in pairwise(found):
        y += above.step(below)
        lines.append((below, y))
    plans = [plan for system in found for plan in system.plans]
    return ScreenCard(card, tuple(lines), y + found[-1].height, _figure(plans))


def _changes(bars: Sequence[Bar]) -> Iterator[Bar]:
    """The bars, each chord only where it changes."""
    now: ChordMark | None = None
    for bar in bars:
        fresh = []
        for chord in bar.chords:
            if now is None or chord.numeral != now.numeral:
                fresh.append(chord)
            now = chord
        yield replace(bar, chords=tuple(fresh))


def _headed(system: System, least: float, heads: bool) -> System:
    """A line with its chords and without the numbers of bars; no word is too small.

    Figures are not less than `least` (pt) for the sake of a few that have no room.
    """
    heads = heads and any(plan.bar.chords or plan.bar.feels for plan in system.plans)
    plans = tuple(
        replace(
            plan,
            measures=replace(plan.measures, hole=max(least, plan.measures.hole)),
            head=replace(plan.head, numbered=False) if heads and plan.head else None,
            syllable_size=max(LEAST_WORD, plan.syllable_size),
        )
        for plan in system.plans
    )
    return replace(system, plans=plans, lanes=lanes_of(plans, plans[0].measures))


def _figure(plans: Sequence[BarPlan]) -> float:
    """The height (px) of the smallest figure; those of chords count as large as single ones."""
    sizes = [plans[0].measures.hole] + [
        figure_size(note.tab, box.width, plan.measures, plan.look)
        / (STACK_SHARE if stacked(note.tab) else 1.0)
        for plan in plans
        for note, box in zip(plan.notes, plan.boxes, strict=True)
        if note.struck
    ]
    return min(sizes) * MM_PER_PT * FIGURE_HEIGHT * SCALE
