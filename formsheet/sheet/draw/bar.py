"""One bar: its head, blow lane, comb, draw lane and syllables, as one drawing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from formsheet.sheet.draw.bar_head import (
    SECOND_ROW,
    HeadItem,
    HeadRow,
    base_line,
    draw_head,
    draw_second,
    head_items,
    second_items,
)
from formsheet.sheet.draw.bar_lines import OUTSIDE, draw_closing, draw_left, draw_opening
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.comb import draw_comb
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import Measures
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.note_box import Box, box_height, draw_box, figure_middle
from formsheet.sheet.draw.notes import Note, notes_of
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.draw.side_words import draw_side_words
from formsheet.sheet.draw.signs import WIDTHS, draw_sign
from formsheet.sheet.view import Bar, HoleMark

OVERHANG = 2.0  # room at either side of a drawing for torn edges and bar lines
SIDE_WORDS = 6.0  # room at the left for "blow" and "draw"
SIGN_GAP = 0.5  # from a box to its sign
BETWEEN_SIGNS = 0.6
BRACKET = 0.3  # weight
BRACKET_ROW = 5.0
BRACKET_HOOK = 3.4
LEAST_SYLLABLE = 7.5  # pt
WORD_GAP = 0.8
BESIDE = 1.0  # between a note that reaches into the row of chords and what is written there
OVER = 0.4  # between a note and the row of chords over it
INTO = 0.75  # of that row: how far a note may reach into it
DEGREE_ROW = 1.1  # em: height of the row of degrees
DEGREE_BASE = 0.91  # em: from its top to the base line
DEGREE_GAP = 0.8  # between two degrees, at least
EMPTY = 0.45  # of a box's height: a lane in which nothing is played, where room is scarce


@dataclass(frozen=True, slots=True)
class Bracket:
    """A bar under a bracket: "Last time, instead of bars 11 and 12"."""

    words: str  # "" where an earlier bar has them
    starts: bool
    ends: bool


@dataclass(frozen=True)
class BarPlan:
    """A bar with its scale and all that its line decides."""

    bar: Bar
    scale: Scale
    measures: Measures
    look: Look
    before: HoleMark | None = None  # the tab that a hold at its start continues
    first: bool = False  # in its line
    last: bool = False
    closes: str = ""  # see `draw_closing`; "none": a heavy line follows
    opens_repeat: bool = False
    head: HeadRow | None = None
    side_words: bool = False  # "blow" and "draw" stand upright at its left
    bracket: Bracket | None = None
    degrees: Mapping[Fraction, str] | None = None  # onset -> the degree under the draw lane
    syllable_size: float = 11.0  # pt

    @cached_property
    def notes(self) -> tuple[Note, ...]:
        """What sounds in it."""
        return notes_of(self.bar.marks, self.before)

    @cached_property
    def boxes(self) -> tuple[Box, ...]:
        """A box for each note."""
        return tuple(map(self._box, self.notes))

    def _box(self, note: Note) -> Box:
        left, right = self.scale.x(note.onset), self.scale.x(note.end) - self.measures.white
        starts, ends = "struck", "round"
        if not note.struck:
            starts, left = ("torn", max(0.0, left - 1.5)) if self.first else ("held", 0.0)
        if note.held_on:
            ends = "torn" if self.last else "held"
            right = self.scale.width
        return Box(left, right, note.tab, starts, ends)  # type: ignore[arg-type]

    @cached_property
    def middles(self) -> dict[Fraction, float]:
        """Onset of each struck note -> the middle of its figure."""
        return {
            note.onset: figure_middle(box, self.measures, self.look)
            for note, box in zip(self.notes, self.boxes, strict=True)
            if note.struck
        }

    @cached_property
    def items(self) -> tuple[HeadItem, ...]:
        """What its head shows."""
        return tuple(head_items(self.head, self.scale, self.measures)) if self.head else ()

    @cached_property
    def second(self) -> tuple[HeadItem, ...]:
        """What the second row of its head shows."""
        return tuple(second_items(self.head, self.scale, self.measures)) if self.head else ()

    def reaches(self, drawn: bool) -> Iterator[tuple[float, float, float]]:
        """Left and right end of each note of a lane, and how far it reaches, signs included."""
        for note, box in zip(self.notes, self.boxes, strict=True):
            if note.tab.draw == drawn:
                reach = box_height(note.tab, self.measures, self.look)
                yield box.left, box.right, reach
                if note.technique and note.struck:
                    wide = WIDTHS[note.technique] * self.measures.sign
                    yield box.left, box.left + wide, reach + SIGN_GAP + self.measures.sign

    def lane(self, drawn: bool) -> float:
        """The height of its highest box in a lane, bends not counted; 0 if there is none."""
        tabs = [note.tab for note in self.notes if note.tab.draw == drawn]
        return max(
            (box_height(tab, self.measures, self.look, plain=True) for tab in tabs),
            default=0.0,
        )


@dataclass(frozen=True, slots=True)
class Lanes:
    """The heights (mm, from the top of a line's drawings) that its bars share."""

    head: float  # top of the row of chords
    blow: float  # top of the bar lines
    comb: float
    draw: float  # the lower line of the comb
    foot: float  # lower end of the bar lines
    syllables: float  # top of the rows of syllables
    height: float
    rows: int = 0  # of syllables
    degrees: float = 0.0  # top of the row of degrees


def lanes_of(plans: Sequence[BarPlan], measures: Measures, *, tight: bool = False) -> Lanes:
    """The heights of a line; `tight`: a lane in which nothing is played is lower.

    A bend or a sign reaches into the row of chords where nothing is written there.
    """
    bracket = BRACKET_ROW if any(plan.bracket for plan in plans) else 0.0
    headed = any(plan.head for plan in plans)
    second = SECOND_ROW if any(plan.second for plan in plans) else 0.0
    head = bracket + (measures.head if headed else 0.0) + second
    least = measures.box * (EMPTY if tight else 1.0)
    lane, lower = (max(least, *(plan.lane(side) for plan in plans)) for side in (False, True))
    comb = head + lane
    for plan in plans:
        for left, right, reach in plan.reaches(False):
            under = (
                not headed
                or second
                or any(
                    item.x - BESIDE < right and left < item.right + BESIDE for item in plan.items
                )
            )
            free = head + (OVER if under else -INTO * measures.head)
            comb = max(comb, free + reach)
    foot = comb + measures.comb
    end = foot + max(lower, *(reach for plan in plans for *_, reach in plan.reaches(True)), 0.0)
    rows = max((word.row + 1 for plan in plans for word in syllable_words(plan)), default=0)
    under = end + rows * measures.syllables
    row = DEGREE_ROW * degree_font(measures).mm if any(plan.degrees for plan in plans) else 0.0
    return Lanes(
        bracket, comb - lane, comb, foot, foot + lower, end, under + row, rows, degrees=under
    )


@dataclass(frozen=True, slots=True)
class Ink:
    """The upper or lower edge of something drawn, from `left` to `right`."""

    left: float
    right: float
    y: float


def upper_ink(plan: BarPlan, lanes: Lanes) -> Iterator[Ink]:
    """What a bar has at its top."""
    if plan.bracket:
        yield Ink(0.0, plan.scale.width, lanes.head - BRACKET_ROW)
        return
    y = base_line(plan.measures, lanes.head)
    for item in plan.items:
        high = item.width / 2 if item.circled else 0.0
        cap = Font("bold", plan.measures.numeral).figure_height
        yield Ink(item.x, item.right, y - cap / 2 - high if item.circled else y - cap)
    yield Ink(0.0, plan.scale.width, lanes.blow)
    for left, right, reach in plan.reaches(False):
        yield Ink(left, right, lanes.comb - reach)


def lower_ink(plan: BarPlan, lanes: Lanes) -> Iterator[Ink]:
    """What a bar has at its foot."""
    yield Ink(0.0, plan.scale.width, lanes.foot)
    for left, right, reach in plan.reaches(True):
        yield Ink(left, right, lanes.draw + reach)
    for word in syllable_words(plan):
        wide = width(word.text, Font("regular", plan.syllable_size))
        y = lanes.syllables + (word.row + 1) * plan.measures.syllables
        yield Ink(word.x, word.x + wide, y)


# ---- Syllables -----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SyllableWord:
    """A syllable, its left end (mm) and its row, from 0."""

    text: str
    x: float
    row: int


def syllable_words(plan: BarPlan) -> list[SyllableWord]:
    """The syllables of a bar under their notes; one that would touch takes a further row."""
    font = Font("regular", plan.syllable_size)
    ends: list[float] = []
    words = []
    for note in plan.notes:
        if not (note.struck and note.syllable):
            continue
        wide = width(note.syllable, font)
        x = max(0.3, min(plan.middles[note.onset] - wide / 2, plan.scale.width - 0.3 - wide))
        row = next((i for i, end in enumerate(ends) if end + WORD_GAP <= x), len(ends))
        ends[row : row + 1] = [x + wide]
        words.append(SyllableWord(note.syllable, x, row))
    return words


def syllable_size(plans: Sequence[BarPlan], measures: Measures) -> float:
    """The largest size (pt) at which the syllables of a line need one row; at least 7.5."""
    size = measures.syllable
    while size > LEAST_SYLLABLE and any(
        word.row for plan in plans for word in syllable_words(_sized(plan, size))
    ):
        size -= 0.5
    return size


def _sized(plan: BarPlan, size: float) -> BarPlan:
    return replace(plan, syllable_size=size)


# ---- Degrees -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class DegreeWord:
    """The degree of a note, its left end (mm), and its face: bold where the lick lands."""

    text: str
    x: float
    font: Font


def degree_font(measures: Measures, *, landing: bool = False) -> Font:
    """The face of degrees, of the size of syllables."""
    return Font("bold" if landing else "italic", measures.syllable)


def degree_words(plan: BarPlan) -> list[DegreeWord]:
    """The degrees of a bar under their notes, none touching the next."""
    words: list[DegreeWord] = []
    end = 0.2 - DEGREE_GAP
    for note in plan.notes:
        text = (plan.degrees or {}).get(note.onset)
        if text and note.struck:
            font = degree_font(plan.measures, landing=note.landing)
            wide = width(text, font)
            x = max(end + DEGREE_GAP, plan.middles[note.onset] - wide / 2)
            words.append(DegreeWord(text, x, font))
            end = x + wide
    limit = plan.scale.width - 0.2
    for at in range(len(words) - 1, -1, -1):  # the last ones give way at the bar line
        word = words[at]
        x = min(word.x, limit - width(word.text, word.font))
        words[at] = replace(word, x=x)
        limit = x - DEGREE_GAP
    return words


# ---- Drawing -------------------------------------------------------------------------------


def draw_bar(plan: BarPlan, lanes: Lanes) -> Canvas:
    """Draw a bar in the lanes of its line."""
    left = SIDE_WORDS if plan.side_words else OVERHANG
    canvas = Canvas(left + plan.scale.width + OVERHANG, lanes.height, left=-left)
    if plan.bracket:
        _bracket(canvas, plan.bracket, plan.scale.width, lanes.head)
    if plan.head:
        draw_head(canvas, plan.items, plan.measures, lanes.head)
        draw_second(canvas, plan.second, lanes.head + plan.measures.head)
    if plan.side_words:
        heavy = OUTSIDE if plan.opens_repeat else 0.0
        draw_side_words(canvas, (lanes.blow, lanes.comb), (lanes.draw, lanes.foot), heavy=heavy)
    comb = (lanes.comb, lanes.draw)
    if plan.opens_repeat:
        draw_opening(canvas, lanes.blow, lanes.foot, comb)
    elif plan.first:
        draw_left(canvas, lanes.blow, lanes.foot)
    if plan.closes != "none":
        draw_closing(canvas, plan.scale.width, lanes.blow, lanes.foot, plan.closes, comb)
    draw_comb(canvas, plan.bar, plan.notes, plan.middles, plan.scale, plan.measures, lanes.comb)
    for note, box in zip(plan.notes, plan.boxes, strict=True):
        base = lanes.draw if note.tab.draw else lanes.comb
        outer = draw_box(canvas, box, base, plan.measures, plan.look)
        if note.technique and note.struck:
            _sign(canvas, plan, note, box, outer)
    font = Font("regular", plan.syllable_size)
    for word in syllable_words(plan):
        y = lanes.syllables + (word.row + 0.8) * plan.measures.syllables
        canvas.text(word.x, y, word.text, font)
    for degree in degree_words(plan):
        y = lanes.degrees + DEGREE_BASE * degree.font.mm
        canvas.text(degree.x, y, degree.text, degree.font)
    return canvas


def _sign(canvas: Canvas, plan: BarPlan, note: Note, box: Box, outer: float) -> None:
    """The sign of a technique at the outer edge of a box, at its left."""
    unit = plan.measures.sign
    down = 1 if note.tab.draw else -1
    wide = WIDTHS[note.technique] * unit
    left = box.left + 0.3
    following = (
        other.left + 0.3
        for other, each in zip(plan.boxes, plan.notes, strict=True)
        if each.technique and each.tab.draw == note.tab.draw and other.left > box.left
    )
    room = min(plan.scale.width - 0.2, next(following, plan.scale.width) - BETWEEN_SIGNS) - left
    draw_sign(
        canvas,
        note.technique,
        left,
        outer + down * (SIGN_GAP + unit / 2),
        unit * min(1.0, room / wide),
    )


def _bracket(canvas: Canvas, bracket: Bracket, wide: float, head: float) -> None:
    top = head - BRACKET_ROW + 0.6
    canvas.rectangle(0.0, top, wide, BRACKET)
    if bracket.starts:
        canvas.rectangle(0.0, top, BRACKET, BRACKET_HOOK)
    if bracket.ends:
        canvas.rectangle(wide - BRACKET, top, BRACKET, BRACKET_HOOK)
    if bracket.words:
        canvas.text(1.4, top + 3.5, bracket.words, Font("bold", 10))
