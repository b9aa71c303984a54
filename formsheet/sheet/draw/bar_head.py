"""The row over a bar: its number, its chords, the letter and title of its lick, a change of feel.

The letter is at the same distance from the bar line in each bar of a chorus. Lengths are
millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.measures import Measures
from formsheet.sheet.draw.metrics import Font, advance, width
from formsheet.sheet.draw.note_box import circle
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import Bar, ChordMark

AFTER_NUMBER = 1.2
BETWEEN = 1.1  # from the numeral of a chord to its letter name
APART = 1.6  # between two things of the row
CIRCLE = 0.4  # weight of the circle
BASE = 0.27  # of the row's height, below the base line
LETTER = 0.62  # of the circle's diameter: the height of the letter's face
LEAST = 8.5  # pt: the least title; a longer one is cut
LEAST_ROOM = 9.0  # for a title: in less it is left out
LEFT = 0.3  # from the left end of a later chord's name to its moment
LEAST_CHORD = 0.7  # of a chord's size, where it would not fit


@dataclass(frozen=True, slots=True)
class HeadRow:
    """What the row over a bar shows, and where the letter's circle begins."""

    bar: Bar
    circle_at: float  # from the bar line
    titled: bool  # the title of the lick is printed here
    sign_at: float = 0.0  # a repeat begins here: room for its bar line
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


def draw_head(canvas: Canvas, row: HeadRow, scale: Scale, measures: Measures, top: float) -> None:
    """Draw the row from `top` down."""
    y = top + (1 - BASE) * measures.head
    bar, x = row.bar, row.sign_at
    if bar.number and row.numbered:
        canvas.text(x, y, str(bar.number), Font("regular", measures.number))
        x = _number_end(bar, measures, x)
    ends = [x]
    limit = scale.width - 0.6
    places = [
        x if chord.onset == 0 else max(scale.x(chord.onset) - LEFT, 0.0)
        for chord in bar.chords
        if bar.number
    ]
    stops = [*(place - 0.8 for place in places[1:]), limit]
    for chord, place, stop in zip(bar.chords, places, stops, strict=False):
        share = max(LEAST_CHORD, min(1.0, (stop - place) / chord_width(chord, measures)))
        numeral, letter = _fonts(measures, share)
        place = max(place, ends[-1])
        end = canvas.text(place, y, accidentals(chord.numeral), numeral)
        ends.append(canvas.text(end + BETWEEN, y, accidentals(chord.letter), letter))
    later = places[1] if len(places) > 1 else limit
    cursor = ends[1] if len(ends) > 1 else ends[0]
    if bar.opens and bar.letter:
        cursor = _circle(canvas, row, cursor, later, y, measures)
    for change in bar.feels:
        font = Font("bold", measures.title - 1)
        left = max(scale.x(change.onset) - LEFT, cursor + APART)
        if left < later < left + width(change.feel, font) + 1:
            left, later = ends[-1] + APART, limit
        left = max(cursor + APART, min(left, limit - width(change.feel, font)))
        end = canvas.text(left, y, change.feel, font)
        if left <= cursor + 2 * APART or left >= later:
            cursor = end
        else:
            later = min(later, left)
    if row.titled and bar.lick:
        _title(canvas, bar.lick, cursor + APART, later - 1.0, y, measures)


def _circle(
    canvas: Canvas, row: HeadRow, cursor: float, later: float, y: float, measures: Measures
) -> float:
    """Draw the letter in its circle; returns its right end."""
    size = measures.circle
    letter = Font("bold", LETTER * size / 0.353)
    left = max(row.circle_at, cursor + 0.8)
    if left + size > later:
        left = cursor + 0.8
    middle = y - Font("bold", measures.numeral).figure_height / 2
    wide = width(row.bar.letter, letter)
    if wide > size - 1.4:
        letter = Font("bold", letter.size * (size - 1.4) / wide)
    canvas.stroke(CIRCLE, circle(left + size / 2, middle, size / 2 - CIRCLE / 2))
    canvas.text(
        left + size / 2, middle + letter.figure_height / 2, row.bar.letter, letter, "middle"
    )
    return left + size


def _title(
    canvas: Canvas, title: str, left: float, right: float, y: float, measures: Measures
) -> None:
    """Draw a title, smaller or cut short where it is too long; not at all where little fits."""
    room = right - left
    size = measures.title
    while size > LEAST and width(title, Font("italic", size)) > room:
        size -= 0.5
    font = Font("italic", size)
    if width(title, font) > room:
        if room < LEAST_ROOM:
            return
        title = _cut(title, font, room - width("…", font)) + "…"
    canvas.text(left, y, title, font)


def _cut(text: str, font: Font, room: float) -> str:
    """The part of a text that fits, in whole words if possible."""
    fits = 0
    for character in text:
        room -= advance(character, font)
        if room < 0:
            break
        fits += 1
    return text[: fits + 1].rpartition(" ")[0] or text[:fits]
