"""The rows of a line of bars, from top to bottom, at the same height in each bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from formsheet.music.grouping import triplets
from formsheet.sheet.draw.holes import NumberStyle, depth
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.draw.words import PlacedWord, accidentals, place, rows, share_row
from formsheet.sheet.view import Bar

CHORD_ROW = 4.2  # mm, as are all these
LICK_ROW = 4.6
STEM_LENGTH = 7.2
SHORT_STEM = 5.6
TIE_ROOM = 3.0  # below the heads
TRIPLET_ROW = 3.6
OVER_STEMS = 1.7  # between numbers or words and the stems
OVER_NUMBERS = 1.0  # from the ink below to a technique's base line: space for descenders
FEEL_ROW = 5.6
WORD_ROW = 3.5
DEGREE_ROW = 3.7
AGAIN_ROW = 8.0  # a line on which every bar repeats an earlier one
#: Width (mm) of the bar line at the end of a chorus, and of the start of a repeat.
ENDINGS = {"final": 2.0, "repeat": 3.2, "double": 1.2}
OPENING = 1.4
LIGHT = "#222"

BAR_NUMBER = Font("regular", 9)
LICK = Font("italic", 11)
ROUND = Font("regular", 9.5)
TECHNIQUE = Font("italic", 10)
SYLLABLE = Font("regular", 10)
FEEL = Font("bold", 9.5)
DEGREE = Font("regular", 10)

Degrees = tuple[tuple[Fraction, str], ...]


@dataclass(frozen=True, slots=True)
class BarPlan:
    """A bar with its scale, the size of its numbers, and its words with their places."""

    bar: Bar
    scale: Scale
    style: NumberStyle
    dropped: float = 0.0  # mm by which the line's drawn numbers are moved down
    degrees: Degrees = ()
    low: float = 0.0  # least mm from the breath line down to the line's degrees
    tight: bool = False  # rows are close: all techniques are above the numbers
    closes: str = ""  # "line" or an ending at the right end of a line, "" within it
    opens_repeat: bool = False
    lick_ends: bool = False  # the next bar has another lick
    degree_words: tuple[PlacedWord, ...] = field(default=())
    techniques: tuple[PlacedWord, ...] = field(default=())  # over blown notes
    low_techniques: tuple[PlacedWord, ...] = field(default=())  # under drawn notes, if not tight
    syllables: tuple[PlacedWord, ...] = field(default=())
    feels: tuple[PlacedWord, ...] = field(default=())

    @property
    def edge(self) -> float:
        """The right end of the bar's room in millimetres, before the bar line of an ending."""
        return self.scale.width - ENDINGS.get(self.closes, 0.0)


@dataclass(frozen=True, slots=True)
class Rows:
    """Heights (mm) from the top of the line of bars, the same in all its bars."""

    chord: float  # base lines, unless noted otherwise
    lick: float  # equal to `chord` if the lick is beside it
    breath: float  # the breath line itself
    stem_top: float
    head: float  # the centre of the heads
    count: float
    height: float


@dataclass(frozen=True, slots=True)
class WordRows:
    """Base lines (mm from the breath line) of a bar's words, close to its own numbers."""

    technique: float  # the lowest row; others above it
    degree: float  # the first row; others below it
    low_technique: float  # the first row; others below it
    syllable: float  # the first row; others below it
    feel: float
    top: float  # the top of all rows
    foot: float  # the bottom of all rows


def word_rows(plan: BarPlan) -> WordRows:
    """The rows of a bar's words."""
    up = depth(plan.bar.marks, plan.style, draw=False)
    technique = -up - OVER_NUMBERS
    top = up + (OVER_NUMBERS + WORD_ROW * rows(plan.techniques) if plan.techniques else 0.6)
    y = max(plan.low, depth(plan.bar.marks, plan.style, draw=True, dropped=plan.dropped))
    degree = y + 3.5
    degree_rows = rows(plan.degree_words)
    y += DEGREE_ROW * degree_rows + (0.2 if degree_rows else 0.0)
    low_technique = y + 3.2
    if not share_row(plan.low_techniques, TECHNIQUE, plan.syllables, SYLLABLE):
        y += WORD_ROW * rows(plan.low_techniques) + (0.2 if plan.low_techniques else 0.0)
    syllable = y + 3.2
    y += WORD_ROW * rows(plan.syllables) + (0.2 if plan.syllables else 0.0)
    feel = y + 4.4
    y += FEEL_ROW * rows(plan.feels)
    y += TRIPLET_ROW if triplets(plan.bar.marks) else OVER_STEMS
    return WordRows(technique, degree, low_technique, syllable, feel, top, y)


def place_words(plan: BarPlan) -> BarPlan:
    """The plan with its degrees, techniques, syllables and changes of feel placed."""
    limit, start = plan.edge, OPENING if plan.opens_repeat else 0.0
    x = plan.scale.x
    marks = [mark for mark in plan.bar.marks if mark.onset >= plan.scale.start]
    with_technique = [mark for mark in marks if mark.technique]
    drawn = [m for m in with_technique if m.tab and m.tab.draw and not plan.tight]
    high, low = (
        place(((x(m.onset), m.technique) for m in some), TECHNIQUE, limit, start)
        for some in ([m for m in with_technique if m not in drawn], drawn)
    )
    syllables = place(
        ((x(m.onset), m.syllable) for m in marks if m.syllable), SYLLABLE, limit, start
    )
    feels = place(((x(f.onset) + 4, f.feel) for f in plan.bar.feels), FEEL, limit, start)
    degrees = place(((x(at), accidentals(text)) for at, text in plan.degrees), DEGREE, limit, start)
    return replace(
        plan,
        degree_words=tuple(degrees),
        techniques=tuple(high),
        low_techniques=tuple(low),
        syllables=tuple(syllables),
        feels=tuple(feels),
    )


def plan_rows(plans: Sequence[BarPlan], *, heading: bool = True) -> Rows:
    """Rows with room for everything in these bars; `heading`: with chords and licks.

    Tight rows have the lick beside its chord, and short stems.
    """
    tight = any(plan.tight for plan in plans)
    chord = CHORD_ROW if heading else 0.0
    beside = tight and all(len(plan.bar.chords) <= 1 for plan in plans)
    titled = heading and not beside and any(plan.bar.lick or has_pickup(plan.bar) for plan in plans)
    lick = chord + (LICK_ROW if titled else 0.0)
    if all(plan.bar.again for plan in plans):
        middle = lick + AGAIN_ROW / 2 + 1.0
        return Rows(chord, lick, middle, middle, middle, middle, lick + AGAIN_ROW + 2.0)
    words = [word_rows(plan) for plan in plans]
    breath = lick + (1.3 if tight else 1.4) + max(word.top for word in words)
    stem_top = breath + max(word.foot for word in words)
    head = stem_top + (SHORT_STEM if tight else STEM_LENGTH)
    tied = any(mark.hold or mark.tied_on for plan in plans for mark in plan.bar.marks)
    count = head + (TIE_ROOM if tied else 1.6) + 3.3
    return Rows(chord, lick, breath, stem_top, head, count, count + 1.2)


def has_pickup(bar: Bar) -> bool:
    """Whether the bar ends with the pick-up of the next bar's lick."""
    return any(mark.pickup for mark in bar.marks)
