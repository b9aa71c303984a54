"""The rows over a bar: its number, its chords, the letter and title of its lick.

Chord and letter are at the same distance from the bar line in each bar of a chorus. A change of
feel, and a title without room beside its chords, stand in a second row. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.measures import INSET, Measures
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, width
from formsheet.sheet.draw.note_box import circle
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.draw.words import accidentals, fitted
from formsheet.sheet.view import Bar, ChordMark

AFTER_NUMBER = 1.5
BEFORE_CHORD = 3.0  # from a title to the chord after it
SECOND_ROW = 4.4
BETWEEN = 1.1  # from the numeral of a chord to its letter name
APART = 1.6  # between two things of the row
CIRCLE = 0.4  # weight of the circle
BASE = 0.27  # of the row's height, below the base line
LETTER = 0.62  # of the circle's diameter: the height of the letter's face
LEAST = 8.5  # pt: the least title; a longer one is cut
LEAST_ROOM = 9.0  # for a title: in less it is left out
LEFT = 0.3  # from the left end of a later chord's name to its moment
LEAST_CHORD = 0.7  # of a chord's size, where it would not fit
LEAST_TWO = 0.75  # of a title's width: with less room it goes to the second row


@dataclass(frozen=True, slots=True)
class HeadRow:
    """What the row over a bar shows, and where the letter's circle begins."""

    bar: Bar
    chord_at: float  # from the bar line: the first chord
    circle_at: float
    titled: bool  # the title of the lick is printed here
    numbered: bool = True  # the bar's number is printed
    title_below: bool = False  # the title stands in the second row


def chord_width(chord: ChordMark, measures: Measures, share: float = 1.0) -> float:
    """Width of numeral and letter name; `share` of their usual size."""
    numeral, letter = _fonts(measures, share)
    return (
        width(accidentals(chord.numeral), numeral)
        + BETWEEN
        + width(accidentals(chord.letter), letter)
    )


def head_places(bars: Sequence[Bar], bar_width: float, measures: Measures) -> tuple[float, float]:
    """The common places of the first chord and of the circle, from the bar line."""
    number = Font("regular", measures.number)
    chord = max((width(str(bar.number), number) for bar in bars), default=0.0) + AFTER_NUMBER
    widest = max((chord_width(bar.chords[0], measures) for bar in bars if bar.chords), default=0.0)
    return chord, min(chord + widest + APART + 0.6, bar_width - measures.circle - 1.0)


def _fonts(measures: Measures, share: float = 1.0) -> tuple[Font, Font]:
    return Font("bold", measures.numeral * share), Font("regular", measures.letter * share)


@dataclass(frozen=True, slots=True)
class HeadItem:
    """A text of the row, or the circle with its letter; `x` of its left end."""

    text: str
    font: Font
    x: float
    width: float
    circled: bool = False

    @property
    def right(self) -> float:
        """Its right end."""
        return self.x + self.width


def _text(text: str, font: Font, x: float) -> HeadItem:
    return HeadItem(text, font, x, width(text, font))


def head_items(row: HeadRow, scale: Scale, measures: Measures) -> list[HeadItem]:
    """What the row shows, from left to right as far as there is room."""
    bar, limit = row.bar, scale.width - 0.6
    items = [] if bar.number else _pickup_items(bar, measures)
    cursor = 0.0
    if bar.number and row.numbered:
        items.append(_text(str(bar.number), Font("regular", measures.number), cursor))
        cursor = row.chord_at
    chords = list(_chords(row, scale, measures, cursor, limit))
    items += chords
    places = [each.x for each in chords[::2]]
    later = places[1] if len(places) > 1 else limit  # where the second chord begins
    if chords:
        cursor = chords[1].right
    if bar.opens and bar.letter:
        left = max(row.circle_at, cursor + 0.8)
        if left + measures.circle > later:
            left = cursor + 0.8
        items.append(_circled(bar.letter, left, measures))
        cursor = items[-1].right
    if row.titled and bar.lick and not row.title_below:
        left, right = _title_room(items, cursor, limit)
        items += _title(bar.lick, left, right, measures)
    return items


def _title_room(items: Sequence[HeadItem], cursor: float, limit: float) -> tuple[float, float]:
    """Where a title may begin and must end."""
    later = min((item.x - BEFORE_CHORD for item in items if item.x >= cursor), default=limit)
    return cursor + APART, later


def title_fits(row: HeadRow, scale: Scale, measures: Measures) -> bool:
    """Whether the title of the lick has room beside its chords, or need not be printed."""
    if not (row.titled and row.bar.lick):
        return True
    items = head_items(replace(row, titled=False), scale, measures)
    circled = [item.right for item in items if item.circled]
    left, right = _title_room(items, max(circled, default=0.0), scale.width - 0.6)
    return right - left >= LEAST_TWO * width(row.bar.lick, Font("italic", measures.title))


def second_items(row: HeadRow, scale: Scale, measures: Measures) -> list[HeadItem]:
    """The second row: changes of feel at their moments, and a title without room above."""
    items: list[HeadItem] = []
    font = Font("bold", measures.title - 1)
    cursor = 0.0
    for change in row.bar.feels:
        left = max(cursor, scale.x(change.onset) - LEFT)
        left = max(cursor, min(left, scale.width - 0.6 - width(change.feel, font)))
        items.append(_text(change.feel, font, left))
        cursor = items[-1].right + APART
    if row.title_below:
        left = cursor if items else scale.x(scale.start) - LEFT
        items += _title(row.bar.lick, left, scale.width - 0.6, measures)
    return items


def _pickup_items(bar: Bar, measures: Measures) -> list[HeadItem]:
    """Over a pick-up before bar 1: that it is played only once."""
    once = any(mark.once for mark in bar.marks)
    return [_text("once", Font("italic", measures.title), INSET)] if once else []


def _chords(
    row: HeadRow, scale: Scale, measures: Measures, cursor: float, limit: float
) -> Iterator[HeadItem]:
    """Numeral and letter name of each chord at its beat."""
    chords = row.bar.chords
    if not row.bar.number or not chords:
        return
    places = [
        cursor if chord.onset == 0 else max(scale.x(chord.onset) - LEFT, 0.0) for chord in chords
    ]
    stops = [*(place - 0.8 for place in places[1:]), limit]
    for chord, place, stop in zip(chords, places, stops, strict=True):
        share = max(LEAST_CHORD, min(1.0, (stop - place) / chord_width(chord, measures)))
        numeral, letter = _fonts(measures, share)
        first = _text(accidentals(chord.numeral), numeral, max(place, cursor))
        yield first
        second = _text(accidentals(chord.letter), letter, first.right + BETWEEN)
        yield second
        cursor = second.right + 0.6


def _circled(letter: str, left: float, measures: Measures) -> HeadItem:
    size = measures.circle
    font = Font("bold", LETTER * size / MM_PER_PT)
    wide = width(letter, font)
    if wide > size - 1.4:
        font = Font("bold", font.size * (size - 1.4) / wide)
    return HeadItem(letter, font, left, size, circled=True)


def _title(title: str, left: float, right: float, measures: Measures) -> list[HeadItem]:
    """A title, smaller or cut short where it is too long; none at all where little fits."""
    room = right - left
    size = measures.title
    while size > LEAST and width(title, Font("italic", size)) > room:
        size -= 0.5
    font = Font("italic", size)
    if width(title, font) > room:
        if room < LEAST_ROOM:
            return []
        title = fitted(title, font, room)
    return [_text(title, font, left)]


def base_line(measures: Measures, top: float) -> float:
    """The base line of the row that begins at `top`."""
    return top + (1 - BASE) * measures.head


def draw_second(canvas: Canvas, items: Sequence[HeadItem], top: float) -> None:
    """Draw the second row from `top` down."""
    for item in items:
        canvas.text(item.x, top + 0.72 * SECOND_ROW, item.text, item.font)


def draw_head(canvas: Canvas, items: Sequence[HeadItem], measures: Measures, top: float) -> None:
    """Draw the row from `top` down."""
    y = base_line(measures, top)
    middle = y - Font("bold", measures.numeral).figure_height / 2
    for item in items:
        if not item.circled:
            canvas.text(item.x, y, item.text, item.font)
            continue
        x = item.x + item.width / 2
        canvas.stroke(CIRCLE, circle(x, middle, item.width / 2 - CIRCLE / 2))
        canvas.text(x, middle + item.font.figure_height / 2, item.text, item.font, "middle")
