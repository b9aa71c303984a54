"""The row over a bar: its number, its chords, the letter and title of its lick, a change of feel.

The letter is at the same distance from the bar line in each bar of a chorus. Lengths are
millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.measures import INSET, Measures
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, advance, width
from formsheet.sheet.draw.note_box import circle
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Bar, ChordMark, FeelMark

AFTER_NUMBER = 1.2
BETWEEN = 1.1  # from the numeral of a chord to its letter name
APART = 1.6  # between two things of the row
CIRCLE = 0.4  # weight of the circle
BASE = 0.27  # of the row's height, below the base line
LETTER = 0.62  # of the circle's diameter: the height of the letter's face
LEAST = 8.5  # pt: the least title; a longer one is cut
LEAST_ROOM = 9.0  # for a title: in less it is left out
LEFT = 0.3  # from the left end of a later chord's name to its moment
SHARES = (1.0, 0.85, 0.7)  # of the usual size of chords, tried in turn
LEAST_CHORD = 0.7  # of a chord's size, where it would not fit
LEAST_FEEL = 7.0  # pt: a change of feel in a crowded row
FEEL_APART = 0.8  # from it to its neighbours


@dataclass(frozen=True, slots=True)
class HeadRow:
    """What the row over a bar shows, and where the letter's circle begins."""

    bar: Bar
    circle_at: float  # from the bar line
    titled: bool  # the title of the lick is printed here
    numbered: bool = True  # the bar's number is printed


def chord_width(chord: ChordMark, measures: Measures, share: float = 1.0) -> float:
    """Width of numeral and letter name; `share` of their usual size."""
    numeral, letter = _fonts(measures, share)
    return (
        width(accidentals(chord.numeral), numeral)
        + BETWEEN
        + width(accidentals(chord.letter), letter)
    )


def first_chord_end(bar: Bar, measures: Measures) -> float:
    """Where the first chord of a bar ends: the circles of a chorus come after the longest."""
    if not bar.chords:
        return 0.0
    return _number_end(bar, measures, 0.0) + chord_width(bar.chords[0], measures)


def circle_place(bars: Sequence[Bar], bar_width: float, measures: Measures) -> float:
    """The common place of the circles of these bars, from their bar lines."""
    ends = [first_chord_end(bar, measures) for bar in bars]
    return min(max(ends, default=0.0) + APART + 0.6, bar_width - measures.circle - 1.0)


def _fonts(measures: Measures, share: float = 1.0) -> tuple[Font, Font]:
    return Font("bold", measures.numeral * share), Font("regular", measures.letter * share)


def _number_end(bar: Bar, measures: Measures, start: float) -> float:
    return start + width(str(bar.number), Font("regular", measures.number)) + AFTER_NUMBER


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
    """What the row shows; chords are smaller where a change of feel needs the room."""
    for share in SHARES:
        if (items := _items(row, scale, measures, share)) is not None:
            return items
    return _items(row, scale, measures, LEAST_CHORD, squeezed=True) or []


def _items(
    row: HeadRow, scale: Scale, measures: Measures, most: float, *, squeezed: bool = False
) -> list[HeadItem] | None:
    """The row with chords of at most a share of their size; None if a change of feel lacks room.

    `squeezed`: a change of feel may take the usual place of the circle, and touch its neighbours.
    """
    bar, limit = row.bar, scale.width - 0.6
    items = [] if bar.number else _pickup_items(bar, measures)
    cursor = 0.0
    if bar.number and row.numbered:
        items.append(_text(str(bar.number), Font("regular", measures.number), cursor))
        cursor = _number_end(bar, measures, cursor)
    chords = list(_chords(row, scale, measures, cursor, limit, most))
    items += chords
    places = [each.x for each in chords[::2]]
    later = places[1] if len(places) > 1 else limit  # where the second chord begins
    if chords:
        cursor = chords[1].right
    feels = list(bar.feels)
    if squeezed and feels and scale.x(feels[0].onset) < later:
        items.append(_text(feels.pop(0).feel, Font("bold", LEAST_FEEL), cursor + FEEL_APART))
        cursor = items[-1].right
    if bar.opens and bar.letter:
        left = max(row.circle_at, cursor + 0.8)
        if left + measures.circle > later:
            left = cursor + 0.8
        items.append(_circled(bar.letter, left, measures))
        cursor = items[-1].right
    first = 0.0
    for change in feels:
        placed = _feel(change, items, scale, measures, (first, limit), squeezed=squeezed)
        if placed is None:
            return None
        items.append(placed)
        first = placed.right
    if row.titled and bar.lick:
        later = min((item.x for item in items if item.x >= cursor), default=limit)
        items += _title(bar.lick, cursor + APART, later - 1.0, measures)
    return items


def _feel(
    change: FeelMark,
    items: Sequence[HeadItem],
    scale: Scale,
    measures: Measures,
    limits: tuple[float, float],
    *,
    squeezed: bool,
) -> HeadItem | None:
    """A change of feel, as near to its moment as the others leave room; smaller where they must.

    None where there is no room for it between the `limits`, unless `squeezed`.
    """
    first, limit = limits
    wanted = scale.x(change.onset) - LEFT
    taken = sorted((item.x, item.right) for item in items)
    starts = [0.0, *(right + FEEL_APART for _, right in taken)]
    ends = [*(left - FEEL_APART for left, _ in taken), limit]
    gaps = [
        (start, end) for start, end in zip(starts, ends, strict=True) if start >= first or not first
    ]
    size = measures.title - 1
    while True:
        font = Font("bold", size)
        wide = width(change.feel, font)
        lefts = [
            max(start, min(wanted, end - wide)) for start, end in gaps if end - start >= wide
        ]  # fmt: skip
        if lefts:
            return _text(change.feel, font, min(lefts, key=lambda left: abs(left - wanted)))
        if size <= LEAST_FEEL and not squeezed:
            return None
        if size <= LEAST_FEEL:
            widest = max(gaps, key=lambda gap: gap[1] - gap[0])
            return _text(change.feel, font, min(widest[0], limit - wide))
        size -= 0.5


def _pickup_items(bar: Bar, measures: Measures) -> list[HeadItem]:
    """Over a pick-up before bar 1: that it is played only once."""
    once = any(mark.once for mark in bar.marks)
    return [_text("once", Font("italic", measures.title), INSET)] if once else []


def _chords(
    row: HeadRow, scale: Scale, measures: Measures, cursor: float, limit: float, most: float
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
        share = max(LEAST_CHORD, min(most, (stop - place) / chord_width(chord, measures)))
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
        title = _cut(title, font, room - width("…", font)) + "…"
    return [_text(title, font, left)]


def base_line(measures: Measures, top: float) -> float:
    """The base line of the row that begins at `top`."""
    return top + (1 - BASE) * measures.head


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


def _cut(text: str, font: Font, room: float) -> str:
    """The part of a text that fits, in whole words if possible."""
    fits = 0
    for character in text:
        room -= advance(character, font)
        if room < 0:
            break
        fits += 1
    return text[: fits + 1].rpartition(" ")[0] or text[:fits]
