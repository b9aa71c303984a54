"""The lick cards of the study page: degrees in the comb, wide as the lick needs, row by row.

The width of a page is divided into units; a usual card has two of them. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from itertools import pairwise, product
from math import ceil

from formsheet.sheet.draw.bar import BarPlan, Lanes, draw_bar, lanes_of
from formsheet.sheet.draw.comb import TEXT_INSET, figure_offset
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import BACK, INSET, Measures
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, width
from formsheet.sheet.draw.note_box import OUTLINE, box_height, figure_em, stacked
from formsheet.sheet.draw.notes import notes_of
from formsheet.sheet.draw.page_head import line_count
from formsheet.sheet.draw.scale import bar_scale, part_scale
from formsheet.sheet.draw.systems import STACK_SHARE, Image, last_tab, pickup_share
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Bar, Card, HoleMark

USUAL = 2  # units of a card
BESIDE = 8.0  # between two cards
LEAST = 14.0  # pt: the least figure of a usual card
LEAST_TIGHT = 11.0  # where the page is full
LEAST_DENSE = 10.0  # of a lick that needs more than the width of the page
APART = 0.7  # between two degrees, at least
CHORDS_APART = 1.5  # between the degrees of two chords
CLEAR = 1.6  # between two lines of a card
HEAD = 6.6  # the row with letter and title, at 10.5 pt
BELOW = 1.2  # from a drawing to its tips
GAP = 2.6  # below a card
USUAL_TEXT = 10.5  # pt
SLOT = 12.0  # of the page: what a free place beside the last cards is worth
ROUNDING = 0.1  # of a width, so that cards side by side never need more than the page has


def scaled(measures: Measures, share: float) -> Measures:
    """The measures, all larger or smaller by one share."""
    return Measures(
        **{each.name: getattr(measures, each.name) * share for each in fields(Measures)}
    )


@dataclass(frozen=True, slots=True)
class Setting:
    """What is the same for all cards of a sheet."""

    room: float  # width of the page within its margins
    units: int  # of that width
    text: float  # pt
    look: Look
    tight: bool  # lanes in which nothing is played are low

    @property
    def share(self) -> float:
        """The size of everything, 1 at usual type."""
        return self.text / USUAL_TEXT

    @property
    def measures(self) -> Measures:
        """The measures of the drawings; degrees have at least 9 pt."""
        share = max(1.0, self.share)
        return scaled(BACK, share)

    @property
    def leading(self) -> float:
        """The height of a line of text."""
        return 0.43 * self.text

    def width(self, units: int) -> float:
        """The width of a card."""
        return (self.room + BESIDE - ROUNDING) * units / self.units - BESIDE


@dataclass(frozen=True, slots=True)
class Shape:
    """A way to set a card: its width in units, and the bars of each of its lines."""

    units: int
    across: int
    height: float  # about


@dataclass(frozen=True, slots=True)
class _Rows:
    """Some rows of cards, and their height."""

    height: float
    rows: tuple[tuple[Shape, ...], ...]


@dataclass(frozen=True, slots=True)
class LineOfCard:
    """Bars side by side."""

    xs: tuple[float, ...]
    plans: tuple[BarPlan, ...]
    lanes: Lanes

    @property
    def height(self) -> float:
        """Its height."""
        return self.lanes.height

    def images(self) -> Iterator[Image]:
        """Its bars, drawn; degrees are said after the notes."""
        for x, plan in zip(self.xs, self.plans, strict=True):
            drawing = draw_bar(plan, self.lanes)
            spoken = plan.bar.spoken
            if plan.texts:
                spoken += f" Degrees: {', '.join(plan.texts.values())}."
            yield Image(drawing, x + drawing.left, spoken)


@dataclass(frozen=True, slots=True)
class PlacedCard:
    """A card as it is printed."""

    card: Card
    width: float
    lines: tuple[LineOfCard, ...]
    head_lines: int  # 2: what it is played on stands under its title


@dataclass(frozen=True, slots=True)
class CardRow:
    """Cards side by side."""

    cards: tuple[PlacedCard, ...]
    height: float
    free: float  # width that is left at its right end


def card_rows(cards: Sequence[Card], setting: Setting) -> list[CardRow]:
    """All cards in their order, in rows that take the least of the page."""
    shapes = [_shapes(card, setting) for card in cards]
    best: list[_Rows] = [_Rows(0.0, ())]
    for end in range(1, len(cards) + 1):
        found = []
        for start in range(max(0, end - setting.units // USUAL), end):
            for row in product(*shapes[start:end]):
                free = setting.units - sum(shape.units for shape in row)
                if free >= 0:
                    high = max(shape.height for shape in row)
                    if end == len(cards) and free < USUAL:
                        high += SLOT  # no other block can stand beside the last cards
                    before = best[start]
                    found.append(_Rows(before.height + high, (*before.rows, row)))
        best.append(min(found, key=lambda rows: (rows.height, len(rows.rows))))
    made = []
    at = 0
    rows = best[-1].rows
    for number, row in enumerate(rows):
        units = [shape.units for shape in row]
        if number + 1 < len(rows):
            units = _filled(units, setting.units)
        made.append(_row(cards[at : at + len(row)], row, units, setting))
        at += len(row)
    return made


def _filled(units: list[int], whole: int) -> list[int]:
    """The widths of a row with what is left given to its widest cards."""
    spare = whole - sum(units)
    if spare and len(set(units)) == 1 and whole % len(units) == 0:
        return [whole // len(units)] * len(units)
    widest = max(range(len(units)), key=lambda at: (units[at], at))
    return [each + spare if at == widest else each for at, each in enumerate(units)]


def _row(
    cards: Sequence[Card], shapes: Sequence[Shape], units: Sequence[int], setting: Setting
) -> CardRow:
    plans = [
        _planned(card, shape, setting.width(wide), setting)
        for card, shape, wide in zip(cards, shapes, units, strict=True)
    ]
    lanes = [
        lanes_of(
            [plan for card in plans if len(card) > line for plan in card[line][1]],
            setting.measures,
            tight=setting.tight,
        )
        for line in range(max(map(len, plans)))
    ]  # the combs of all cards are in line
    placed = []
    heights = []
    for card, lines, wide in zip(cards, plans, units, strict=True):
        drawn = tuple(
            LineOfCard(xs, line, _own(lanes_of(line, setting.measures, tight=setting.tight), each))
            for (xs, line), each in zip(lines, lanes, strict=False)
        )
        head = head_lines(card, setting.width(wide), setting)
        placed.append(PlacedCard(card, setting.width(wide), drawn, head))
        heights.append(
            _head(head, setting)
            + sum(line.height for line in drawn)
            + CLEAR * (len(drawn) - 1)
            + (BELOW if card.tips else 0.0)
            + tips_height(card, setting.width(wide), setting)
        )
    left = setting.units - sum(units)
    return CardRow(
        tuple(placed),
        max(heights) + GAP * setting.share,
        setting.width(left) if left else 0.0,
    )


def head_lines(card: Card, room: float, setting: Setting) -> int:
    """The lines of a card's heading: 1, or 2 where its title is long."""
    title = width(card.title, Font("bold", 1.14 * setting.text))
    what = width(f"{card.on} · {card.played}", Font("regular", setting.text))
    letter = 7.6 * setting.share if card.letter else 0.0
    return 1 if letter + title + 2.6 + what <= room * 0.985 else 2


def _head(lines: int, setting: Setting) -> float:
    return HEAD * setting.share + (lines - 1) * 0.47 * setting.text


def tips_height(card: Card, room: float, setting: Setting) -> float:
    """The height of the tips of a card."""
    font = Font("regular", setting.text)
    return setting.leading * sum(line_count(tip, font, room) for tip in card.tips)


def _own(own: Lanes, shared: Lanes) -> Lanes:
    """The lanes of a card with its comb where that of its neighbours is."""
    by = shared.comb - own.comb
    return Lanes(
        own.head, own.blow + by, own.comb + by, own.draw + by, own.foot + by, own.syllables + by,
        own.height + by, own.rows,
    )  # fmt: skip


# ---- The width of a card -------------------------------------------------------------------


def _shapes(card: Card, setting: Setting) -> list[Shape]:
    """The ways to set a card with figures and degrees that can be read."""
    bars = len(card.bars)
    widths = [each for each in (2, 3, 4, 6) if each < setting.units] + [setting.units]
    counts = sorted({ceil(bars / lines) for lines in range(1, bars + 1)}, reverse=True)
    for least in (LEAST_TIGHT if setting.tight else LEAST, LEAST_DENSE):
        needed = _least_unit(card, least * max(1.0, setting.share), setting)
        found = [
            Shape(units, across, _height(card, units, across, setting))
            for units in widths
            for across in counts
            if _unit(card, across, setting.width(units)) >= needed
        ]
        if found:
            return [each for each in found if not any(_beats(other, each) for other in found)]
    return [Shape(setting.units, 1, _height(card, setting.units, 1, setting))]


def _beats(one: Shape, other: Shape) -> bool:
    """Whether a shape is no wider and no higher than another, and better in one of both."""
    return (
        one.units <= other.units
        and one.height <= other.height
        and (one.units, one.height) != (other.units, other.height)
    )


def _height(card: Card, units: int, across: int, setting: Setting) -> float:
    lines, measures = ceil(len(card.bars) / across), setting.measures
    tabs = [mark.tab for bar in card.bars for mark in bar.marks if mark.tab]
    lanes = sum(
        max(
            (box_height(tab, measures, setting.look) for tab in tabs if tab.draw == drawn),
            default=measures.box,
        )
        for drawn in (False, True)
    )
    if any(mark.syllable for bar in card.bars for mark in bar.marks):
        lanes += measures.syllables
    tips = tips_height(card, setting.width(units), setting)
    head = _head(head_lines(card, setting.width(units), setting), setting)
    return head + lines * (measures.comb + lanes + CLEAR) + tips + GAP


def _lines(card: Card, shape: Shape) -> list[tuple[Bar, ...]]:
    bars, across = card.bars, shape.across
    return [tuple(bars[at : at + across]) for at in range(0, len(bars), across)]


def _unit(card: Card, across: int, wide: float) -> float:
    """Millimetres a quarter on the lines of a card; all have that of the first."""
    length = float(card.bars[0].length)
    insets = INSET * across
    if card.pickup is None:
        return (wide - insets) / (across * length)
    return (wide - insets - INSET) / ((across + pickup_share(card.pickup)) * length)


def _least_unit(card: Card, least: float, setting: Setting) -> float:
    """Millimetres a quarter that figures of `least` pt need, and degrees that do not touch."""
    measures = setting.measures
    needed = [0.01]
    for bar in [*card.bars, *([card.pickup] if card.pickup else [])]:
        for note in notes_of(bar.marks, None):
            size = least * (STACK_SHARE if stacked(note.tab) else 1.0)
            room = size * figure_em(note.tab, setting.look) * MM_PER_PT
            long = float(note.end - note.onset)
            needed.append((room + measures.white + OUTLINE) / long)
    font = Font("bold", measures.count)
    numbered = [*enumerate(card.bars), *([(-1, card.pickup)] if card.pickup else [])]
    for at, bar in numbered:
        places = [
            (float(onset), *_reach(width(text, font), measures), " " in text)
            for onset, text in sorted(_texts(card, at).items())
        ]
        places.append((float(bar.length), 0.2, 0.0, False))
        for (x, _, right, chord), (next_x, left, _, after) in pairwise(places):
            apart = CHORDS_APART if chord and after else APART
            needed.append((right - left + apart) / (next_x - x))
    return max(needed)


def _reach(wide: float, measures: Measures) -> tuple[float, float]:
    """From an onset to the ends of the text in the comb."""
    middle = figure_offset(measures)
    return max(TEXT_INSET, middle - wide / 2), max(TEXT_INSET + wide, middle + wide / 2)


# ---- Plans of bars -------------------------------------------------------------------------


def _planned(
    card: Card, shape: Shape, wide: float, setting: Setting
) -> list[tuple[tuple[float, ...], tuple[BarPlan, ...]]]:
    """The lines of a card: where each bar begins, and its plan."""
    lines = _lines(card, shape)
    unit = _unit(card, min(shape.across, len(card.bars)), wide)
    entering: HoleMark | None = None
    made = []
    number = 0
    for line in lines:
        xs: list[float] = []
        plans: list[BarPlan] = []
        x = 0.0
        pickup = card.pickup
        if pickup and number == 0:
            first = next((m.onset for m in pickup.marks if not m.is_rest), pickup.length)
            start = first // pickup.beat * pickup.beat
            scale = part_scale(unit, start, pickup.length)
            plans.append(
                BarPlan(
                    pickup, scale, setting.measures, setting.look, first=True,
                    texts=_texts(card, -1),
                )
            )  # fmt: skip
            xs.append(x)
            x += scale.width
        for at, bar in enumerate(line):
            scale = bar_scale(INSET + float(bar.length) * unit, bar.length)
            last = at + 1 == len(line)
            plans.append(
                BarPlan(
                    bar, scale, setting.measures, setting.look, entering,
                    first=not plans, last=last, closes="line" if last else "",
                    texts=_texts(card, number),
                )
            )  # fmt: skip
            entering = last_tab([bar], entering)
            xs.append(x)
            x += scale.width
            number += 1
        size = setting.measures.syllable
        made.append((tuple(xs), tuple(replace(plan, syllable_size=size) for plan in plans)))
    return made


def _texts(card: Card, bar: int) -> dict[Fraction, str]:
    """The degrees of a bar by their onset; -1 is the pick-up."""
    return {onset: accidentals(name) for onset, at, name in card.degrees if at == bar}
