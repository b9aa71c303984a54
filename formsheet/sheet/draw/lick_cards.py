"""The lick cards of the study page: degrees under the notes, wide as the lick needs, row by row.

The width of a page is divided into units; a usual card has two of them. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from itertools import pairwise, product
from math import ceil, inf

from formsheet.sheet.draw.bar import (
    DEGREE_GAP,
    BarPlan,
    Lanes,
    degree_font,
    draw_bar,
    lanes_of,
)
from formsheet.sheet.draw.comb import figure_offset
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import BACK, INSET, Measures
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, width
from formsheet.sheet.draw.note_box import OUTLINE, figure_em, stacked
from formsheet.sheet.draw.notes import notes_of
from formsheet.sheet.draw.page_head import line_count
from formsheet.sheet.draw.paragraphs import balanced
from formsheet.sheet.draw.scale import bar_scale, part_scale
from formsheet.sheet.draw.systems import Image, last_tab, pickup_share
from formsheet.sheet.draw.words import accidentals, fitted
from formsheet.sheet.view import Card, HoleMark

USUAL = 2  # units of a card
BESIDE = 8.0  # between two cards
LEAST = 14.0  # pt: the least figure of a usual card
LEAST_TIGHT = 11.0  # where the page is full
LEAST_DENSE = 10.0  # of a lick that needs more than the width of the page
CLEAR = 1.2  # between two lines of a card
HEAD = 6.4  # the row with letter and title, at 10.5 pt
BELOW = 1.2  # from a drawing to its tips
GAP = 2.6  # below a card
CLOSE_HEAD, CLOSE_BELOW, CLOSE_GAP = 5.6, 0.8, 1.2  # where the page is full
HEAD_BESIDE = 32.0  # width of a heading at the left of its bars, at 10.5 pt
USUAL_TEXT = 10.5  # pt
SLOT = 12.0  # of the page: what a free place beside the last cards is worth
HOLE = 18.0  # what a free place beside other cards costs
UNEVEN = 4.0  # what a row costs whose cards have different numbers of lines
ROUNDING = 0.1  # of a width, so that cards side by side never need more than the page has


def scaled(measures: Measures, share: float) -> Measures:
    """The measures, all larger or smaller by one share."""
    return Measures(
        **{each.name: getattr(measures, each.name) * share for each in fields(Measures)}
    )


LONGEST_WORD = 60.0  # in the title of a card


@dataclass(frozen=True, slots=True)
class Setting:
    """What is the same for all cards of a sheet."""

    room: float  # width of the page within its margins
    units: int  # of that width
    text: float  # pt
    look: Look
    tight: bool  # lanes in which nothing is played are low
    close: bool = False  # least white, and the tips of a card in one paragraph
    line: float = 0.43  # mm a pt of text

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
        return self.line * self.text

    @property
    def head(self) -> float:
        """The height of a heading of one line."""
        return (CLOSE_HEAD if self.close else HEAD) * self.share

    @property
    def below(self) -> float:
        """The white above the tips."""
        return CLOSE_BELOW if self.close else BELOW

    @property
    def beside(self) -> float:
        """The width of a heading at the left of its bars."""
        return HEAD_BESIDE * self.share

    @property
    def gap(self) -> float:
        """The white below a row of cards."""
        return CLOSE_GAP if self.close else GAP * self.share

    def width(self, units: int) -> float:
        """The width of a card."""
        return (self.room + BESIDE - ROUNDING) * units / self.units - BESIDE


@dataclass(frozen=True, slots=True)
class Line:
    """Bars side by side: where each begins, and how far they reach from the top of the comb."""

    xs: tuple[float, ...]
    plans: tuple[BarPlan, ...]
    above: float
    below: float


@dataclass(frozen=True, slots=True)
class Shape:
    """A way to set a card."""

    units: int
    lines: tuple[Line, ...]
    head_lines: int  # 2 or more: its title is long; 0: it stands at the left of the bars
    tips: tuple[tuple[str, ...], ...]  # lines of each

    @property
    def tip_lines(self) -> int:
        """The number of lines of its tips."""
        return sum(map(len, self.tips))


@dataclass(frozen=True, slots=True)
class _Rows:
    """Some rows of cards, and what they cost: their height, and more where they look worse."""

    cost: float
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
            if plan.degrees:
                spoken += f" Degrees: {', '.join(plan.degrees.values())}."
            yield Image(drawing, x + drawing.left, spoken)


@dataclass(frozen=True, slots=True)
class PlacedCard:
    """A card as it is printed."""

    card: Card
    width: float
    lines: tuple[LineOfCard, ...]
    tips: tuple[tuple[str, ...], ...]  # lines of each
    head: float  # height of its heading, that of all cards in its row
    under: bool  # what it is played on stands under its title
    bars: float  # height of its lines, that of all cards in its row
    beside: float  # width of its heading at the left of its bars, 0 if it stands above them


@dataclass(frozen=True, slots=True)
class CardRow:
    """Cards side by side: their combs and the first lines of their tips are in line."""

    cards: tuple[PlacedCard, ...]
    height: float
    free: float  # width that is left at its right end
    below: float  # white above the tips


def _short_words(title: str, setting: Setting) -> str:
    """A title whose words fit beside the letter of a narrow card; longer ones are cut."""
    font, most = Font("bold", 1.14 * setting.text), LONGEST_WORD * setting.share
    return " ".join(fitted(word, font, most) for word in title.split())


def card_rows(cards: Sequence[Card], setting: Setting) -> list[CardRow]:
    """All cards in their order, in rows that take the least of the page.

    A page has cards of at most two widths.
    """
    if not cards:
        return []
    cards = [replace(card, title=_short_words(card.title, setting)) for card in cards]
    shapes = [_shapes(card, setting) for card in cards]
    narrow = [each for each in (2, 3, 4, 6) if each < setting.units]
    grids = [
        (one, other) for at, one in enumerate(narrow) for other in [*narrow[at:], setting.units]
    ]
    best = min((_best(shapes, grid, setting) for grid in grids), key=lambda each: each.cost)
    made = []
    at = 0
    for row in best.rows:
        made.append(_row(cards[at : at + len(row)], row, setting))
        at += len(row)
    return made


def _best(shapes: Sequence[Sequence[Shape]], grid: tuple[int, int], setting: Setting) -> _Rows:
    """The best rows of cards of two widths."""
    own = [[each for each in found if each.units in grid] for found in shapes]
    best = [_Rows(0.0, ())]
    for end in range(1, len(own) + 1):
        found = [_Rows(inf, ())]
        for start in range(max(0, end - setting.units // USUAL), end):
            for row in product(*own[start:end]):
                free = setting.units - sum(shape.units for shape in row)
                if free < 0:
                    continue
                cost = _row_height(row, setting)
                above = best[start].rows
                like = not row[0].head_lines and above and not above[-1][0].head_lines
                if free < USUAL and end == len(own) and not like:
                    cost += SLOT  # no other block can stand beside the last cards
                elif free and end < len(own):
                    cost += HOLE
                if len({len(shape.lines) for shape in row}) > 1:
                    cost += UNEVEN
                found.append(_Rows(best[start].cost + cost, (*best[start].rows, row)))
        best.append(min(found, key=lambda rows: (rows.cost, len(rows.rows))))
    return best[-1]


def _row_lines(row: Sequence[Shape]) -> list[tuple[float, float]]:
    """Of each line of a row of cards, how far it reaches from the top of the comb, up and down."""
    return [
        (
            max(shape.lines[at].above for shape in row if len(shape.lines) > at),
            max(shape.lines[at].below for shape in row if len(shape.lines) > at),
        )
        for at in range(max(len(shape.lines) for shape in row))
    ]


def _bars_height(row: Sequence[Shape]) -> float:
    lines = _row_lines(row)
    return sum(above + below for above, below in lines) + CLEAR * (len(lines) - 1)


def _row_height(row: Sequence[Shape], setting: Setting) -> float:
    tips = max(shape.tip_lines for shape in row)
    return (
        _head(max(shape.head_lines for shape in row), setting)
        + _bars_height(row)
        + (setting.below + setting.leading * tips if tips else 0.0)
        + setting.gap
    )


def _row(cards: Sequence[Card], row: Sequence[Shape], setting: Setting) -> CardRow:
    lanes = [
        lanes_of(
            [plan for shape in row if len(shape.lines) > at for plan in shape.lines[at].plans],
            setting.measures,
            tight=setting.tight,
        )
        for at in range(max(len(shape.lines) for shape in row))
    ]
    head = _head(max(shape.head_lines for shape in row), setting)
    bars = sum(each.height for each in lanes) + CLEAR * (len(lanes) - 1)
    placed = tuple(
        PlacedCard(
            card,
            setting.width(shape.units),
            tuple(
                LineOfCard(line.xs, line.plans, shared)
                for line, shared in zip(shape.lines, lanes, strict=False)
            ),
            shape.tips,
            head,
            shape.head_lines > 1,
            bars,
            0.0 if shape.head_lines else setting.beside,
        )
        for card, shape in zip(cards, row, strict=True)
    )
    left = setting.units - sum(shape.units for shape in row)
    tips = max(shape.tip_lines for shape in row)
    high = head + bars + (setting.below + setting.leading * tips if tips else 0.0)
    free = setting.width(left) if left else 0.0
    return CardRow(placed, high + setting.gap, free, setting.below)


def head_lines(card: Card, room: float, setting: Setting) -> int:
    """The lines of a card's heading: 1, or more where its title is long."""
    font = Font("bold", 1.14 * setting.text)
    what = width(f"{card.on} · {card.played}", Font("regular", setting.text))
    letter = 7.6 * setting.share if card.letter else 0.0
    title = width(card.title, font)
    if letter + title + 2.6 + what <= room * 0.985:
        return 1
    return 1 + line_count(card.title, font, room - letter)


def _head(lines: int, setting: Setting) -> float:
    return setting.head + (lines - 1) * 0.47 * setting.text if lines else 0.0


# ---- The width of a card -------------------------------------------------------------------


def _shapes(card: Card, setting: Setting) -> list[Shape]:
    """The ways to set a card with figures and degrees that can be read."""
    bars = len(card.bars)
    widths = [each for each in (2, 3, 4, 6) if each < setting.units] + [setting.units]
    counts = sorted({ceil(bars / lines) for lines in range(1, bars + 1)}, reverse=True)
    for least in (LEAST_TIGHT if setting.tight else LEAST, LEAST_DENSE):
        needed = _least_unit(card, least * max(1.0, setting.share), setting)
        found = [
            (units, across)
            for units in widths
            for across in counts
            if _unit(card, across, setting.width(units)) >= needed
        ]
        if found:  # of each width the shape with the fewest lines
            most = dict(reversed(found))
            shapes = [_shape(card, units, across, setting) for units, across in most.items()]
            if (
                setting.close
                and _unit(card, bars, setting.width(widths[-1]) - setting.beside) >= needed
            ):
                shapes += _beside(card, setting)
            return shapes
    return [_shape(card, setting.units, 1, setting)]


def _shape(card: Card, units: int, across: int, setting: Setting, beside: float = 0.0) -> Shape:
    room = setting.width(units) - beside
    font = Font("regular", setting.text)
    lines = []
    for xs, plans in _planned(card, across, room, setting):
        lanes = lanes_of(plans, setting.measures, tight=setting.tight)
        lines.append(Line(xs, plans, lanes.comb, lanes.height - lanes.comb))
    texts = [" ".join(card.tips)] if setting.close and card.tips else card.tips
    tips = tuple(balanced(tip, font, room) for tip in texts)
    head = 0 if beside else head_lines(card, room, setting)
    return Shape(units, tuple(lines), head, tips)


def _beside(card: Card, setting: Setting) -> Iterator[Shape]:
    """A card of one line over the whole width with its heading at the left, where it is short."""
    shape = _shape(card, setting.units, len(card.bars), setting, setting.beside)
    room = setting.beside - BESIDE / 2
    title = line_count(card.title, Font("bold", 1.14 * setting.text), room - 7.6 * setting.share)
    what = line_count(f"{card.on} · {card.played}", Font("regular", setting.text), room)
    if (1.14 * title + what) * 0.47 * setting.text <= _bars_height([shape]):
        yield shape


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
            size = measures.stack * (least / LEAST) if stacked(note.tab) else least
            room = size * figure_em(note.tab, setting.look) * MM_PER_PT
            long = float(note.end - note.onset)
            needed.append((room + measures.white + OUTLINE) / long)
    numbered = [*enumerate(card.bars), *([(-1, card.pickup)] if card.pickup else [])]
    for at, bar in numbered:
        reaches = []
        landings = {mark.onset for mark in bar.marks if mark.landing}
        for onset, text in sorted(_degrees(card, at).items()):
            half = width(text, degree_font(measures, landing=onset in landings)) / 2
            middle = figure_offset(measures)
            reaches.append((float(onset), max(0.2, middle - half), max(2 * half, middle + half)))
        reaches.append((float(bar.length), 0.2, 0.0))
        for (x, _, right), (next_x, left, _) in pairwise(reaches):
            needed.append((right - left + DEGREE_GAP) / (next_x - x))
    return max(needed)


# ---- Plans of bars -------------------------------------------------------------------------


def _planned(
    card: Card, across: int, wide: float, setting: Setting
) -> list[tuple[tuple[float, ...], tuple[BarPlan, ...]]]:
    """The lines of a card: where each bar begins, and its plan."""
    lines = [card.bars[at : at + across] for at in range(0, len(card.bars), across)]
    unit = _unit(card, across, wide)
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
                    degrees=_degrees(card, -1),
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
                    degrees=_degrees(card, number),
                )
            )  # fmt: skip
            entering = last_tab([bar], entering)
            xs.append(x)
            x += scale.width
            number += 1
        size = setting.measures.syllable
        made.append((tuple(xs), tuple(replace(plan, syllable_size=size) for plan in plans)))
    return made


def _degrees(card: Card, bar: int) -> dict[Fraction, str]:
    """The degrees of a bar by their onset; -1 is the pick-up."""
    return {onset: accidentals(name) for onset, at, name in card.degrees if at == bar}
