"""The heading of a bar: its number, chords, the lick and its round, a pick-up."""

from __future__ import annotations

from fractions import Fraction

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font, advance, width
from formsheet.sheet.draw.rows import BAR_NUMBER, LICK, OPENING, ROUND, BarPlan
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import ChordMark

CHORD_SIZES = (14.0, 13.0, 12.0, 11.0, 10.0, 9.0, 8.0, 7.0)
BETWEEN = " · "
LEFT = 0.3  # mm from the left end of a chord's name to its moment
ROUND_GAP = 2.2  # mm from a title to its round
LEAST_LICK = 9.0  # pt
SPAN = 0.2  # weight of the line over a lick, mm


def _chord_width(chord: ChordMark, size: float) -> float:
    numeral, letter = Font("bold", size), Font("regular", size)
    return width(accidentals(chord.numeral), numeral) + width(
        BETWEEN + accidentals(chord.letter), letter
    )


def draw_chords(canvas: Canvas, plan: BarPlan, y: float) -> float:
    """Draw numeral and letter of each chord at its onset, as large as they fit; returns the end."""
    chords = [chord for chord in plan.bar.chords if chord.onset >= plan.scale.start]
    if not chords:
        return plan.scale.x(plan.scale.start)
    xs = [plan.scale.x(chord.onset) - LEFT for chord in chords]
    ends = [*(x - 1.5 for x in xs[1:]), plan.edge - 0.5]
    size = next(
        (
            size
            for size in CHORD_SIZES
            if all(
                x + _chord_width(chord, size) <= end
                for x, chord, end in zip(xs, chords, ends, strict=True)
            )
        ),
        CHORD_SIZES[-1],
    )
    end = xs[-1]
    for x, chord in zip(xs, chords, strict=True):
        middle = canvas.text(x, y, accidentals(chord.numeral), Font("bold", size))
        end = canvas.text(middle, y, BETWEEN + accidentals(chord.letter), Font("regular", size))
    return end


def draw_bar_number(canvas: Canvas, plan: BarPlan, y: float) -> None:
    """Draw the bar number, small, at the left."""
    canvas.text(0.7 + (OPENING if plan.opens_repeat else 0.0), y, str(plan.bar.number), BAR_NUMBER)


def _pickup_start(plan: BarPlan) -> Fraction | None:
    return next((mark.onset for mark in plan.bar.marks if mark.pickup), None)


def draw_lick(canvas: Canvas, plan: BarPlan, y: float, beside: float | None = None) -> None:
    """Draw the lick's title at its start and a line to its end, closed by a hook.

    `beside`: the x (mm) of the start if the lick shares the row of the chord.
    """
    level = y - 1.15
    right = plan.edge
    pickup = _pickup_start(plan)
    if pickup is not None:
        right = plan.scale.x(pickup) - 3.0
        _draw_pickup(canvas, plan, pickup, y)
    if not plan.bar.lick:
        return
    x = 0.0 if beside is None else beside
    if plan.bar.starts_lick:
        left = plan.scale.x(plan.scale.start) - LEFT if beside is None else beside
        x = _draw_title(canvas, plan, (left, y), right)
    ends = plan.lick_ends or pickup is not None
    stop = right - 1.2 if ends else right
    if stop - x > 3:
        canvas.line(SPAN, (x, level), (stop, level))
        if ends:
            canvas.line(SPAN, (stop, level - SPAN / 2), (stop, level + 1.3))


def _draw_title(canvas: Canvas, plan: BarPlan, place: tuple[float, float], right: float) -> float:
    """Draw title and round; a title too long for its bar is set smaller, then cut short."""
    left, y = place
    round_width = width(plan.bar.round, ROUND) + ROUND_GAP if plan.bar.round else 0.0
    room = right - left - round_width - 1.5
    title = plan.bar.lick
    size = LICK.size
    while size > LEAST_LICK and width(title, Font("italic", size)) > room:
        size -= 0.5
    font = Font("italic", size)
    if width(title, font) > room:
        title = _cut(title, font, room - width("…", font)) + "…"
    x = canvas.text(left, y, title, font)
    if plan.bar.round:
        x = canvas.text(x + ROUND_GAP, y, plan.bar.round, ROUND)
    return x + 1.4


def _cut(text: str, font: Font, room: float) -> str:
    """The part of a text that fits, in whole words if possible, with an ellipsis."""
    fits = 0
    for character in text:
        room -= advance(character, font)
        if room < 0:
            break
        fits += 1
    return text[: fits + 1].rpartition(" ")[0] or text[:fits]


def _draw_pickup(canvas: Canvas, plan: BarPlan, onset: Fraction, y: float) -> None:
    left = plan.scale.x(onset) - 1.6
    right = plan.edge
    level = y - 1.15
    once = any(mark.once for mark in plan.bar.marks)
    x = left
    canvas.line(SPAN, (left, level + 1.3), (left, level), (left + 0.8, level))
    for words in (*(["pick-up once", "once"] if once else []), "pick-up"):
        if left + 2 + width(words, ROUND) < right - 1:
            x = canvas.text(left + 1.4, y, words, ROUND)
            break
    if right - x > 1.5:
        canvas.line(SPAN, (x + 0.6, level), (right, level))
