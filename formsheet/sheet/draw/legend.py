"""The legend at the foot of the front page: only the signs that occur. Lengths are millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.comb import LANDING, LINE
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import WIDE
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.note_box import Box, circle, draw_box
from formsheet.sheet.draw.signs import WIDTHS, draw_sign
from formsheet.sheet.view import HoleMark, KeyEntry

FACE = Font("regular", 9.5)
LEAST = 4.0  # mm between two entries, where that saves a row
ROW = 6.0
SIGN = 5.0  # height of a sign's drawing
AFTER_SIGN = 1.3
APART = 5.5  # between two entries
UNIT = 2.4  # of a technique's sign
_SMALL = replace(WIDE, hole=11, box=4.6, pad=0.5, white=0.5)
_SQUARE = 1.5


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry with its place."""

    sign: Canvas | None
    words: str
    x: float
    y: float
    width: float  # of sign and words


@dataclass(frozen=True, slots=True)
class Legend:
    """All entries, in rows."""

    entries: tuple[Entry, ...]
    height: float


NO_LEGEND = Legend((), 0.0)


def legend(entries: Sequence[KeyEntry], room: float, look: Look) -> Legend:
    """Set the entries in a width of `room`; what boxes show by themselves is said if it fits."""
    found = _set(entries, room, look)
    shorter = _set([each for each in entries if each.sign != "length"], room, look)
    return shorter if shorter.height < found.height else found


def _set(entries: Sequence[KeyEntry], room: float, look: Look) -> Legend:
    drawn = [(entry_sign(each, look), each.words) for each in entries]
    widths = [
        width(words, FACE) + (sign.width + AFTER_SIGN if sign else 0.0) for sign, words in drawn
    ]
    apart = APART
    if len(drawn) > 1 and sum(widths) + APART * (len(drawn) - 1) > room:
        apart = (room - sum(widths)) / (len(drawn) - 1)
        apart = apart if apart >= LEAST else APART
    placed = []
    x, y = 0.0, 0.0
    for (sign, words), wide in zip(drawn, widths, strict=True):
        if x and x + wide > room + 0.01:
            x, y = 0.0, y + ROW
        placed.append(Entry(sign, words, x, y, wide))
        x += wide + apart
    return Legend(tuple(placed), y + ROW if placed else 0.0)


def entry_sign(entry: KeyEntry, look: Look) -> Canvas | None:
    """The drawing of an entry's sign; None where words suffice."""
    if entry.sign in ("blow", "draw"):
        return _boxed(HoleMark((4,), entry.sign == "draw"), look)
    if entry.sign == "technique":
        canvas = Canvas(WIDTHS[entry.text] * UNIT + 0.4, SIGN)
        draw_sign(canvas, entry.text, 0.2, SIGN / 2, UNIT)
        return canvas
    makers = {
        "length": _long, "bend": _ticks, "overblow": _ring, "overdraw": _ring, "overbend": _ring,
        "block": _hollow, "split": _filled, "landing": _tooth, "torn": _torn_edge,
    }  # fmt: skip
    return makers[entry.sign]() if entry.sign in makers else None


def _boxed(tab: HoleMark, look: Look) -> Canvas:
    em = look.marks.beside
    wide = 3.9 + em * Font("bold", _SMALL.hole).mm
    canvas = Canvas(wide + 0.4, SIGN)
    base = 0.2 if tab.draw else SIGN - 0.2
    draw_box(canvas, Box(0.2, wide, tab), base, _SMALL, look)
    return canvas


def _long() -> Canvas:
    """A long box beside a short one."""
    canvas = Canvas(11.0, SIGN)
    tab = HoleMark((4,), draw=False)
    draw_box(canvas, Box(0.2, 6.4, tab), SIGN - 0.2, _SMALL, Look())
    draw_box(canvas, Box(7.0, 10.7, tab), SIGN - 0.2, _SMALL, Look())
    return canvas


def _ticks() -> Canvas:
    canvas = Canvas(3.2, SIGN)
    for i in range(2):
        x, y, high, wide = 0.2 + 1.5 * i, SIGN / 2, 2.2, 0.8
        canvas.fill(
            f"M{x + 0.28 * high:.2f} {y - high / 2:.2f}h{wide}"
            f"L{x + wide:.2f} {y + high / 2:.2f}h-{wide}z"
        )
    return canvas


def _ring() -> Canvas:
    canvas = Canvas(2.8, SIGN)
    canvas.stroke(0.55, circle(1.4, SIGN / 2, 0.95))
    return canvas


def _hollow() -> Canvas:
    canvas = Canvas(2.0, SIGN)
    edge, side = 0.3, _SQUARE
    y = (SIGN - side) / 2
    inner = side - 2 * edge
    canvas.fill(
        f"M.2 {y:.2f}h{side}v{side}h-{side}z"
        f"M{0.2 + edge:.2f} {y + edge:.2f}v{inner:.2f}h{inner:.2f}v-{inner:.2f}z"
    )
    return canvas


def _filled() -> Canvas:
    canvas = Canvas(2.0, SIGN)
    canvas.rectangle(0.2, (SIGN - _SQUARE) / 2, _SQUARE, _SQUARE)
    return canvas


def _tooth() -> Canvas:
    """A piece of the comb with the tooth of a landing."""
    canvas = Canvas(5.6, SIGN)
    high, wide = LANDING
    y = SIGN - 0.9
    canvas.line(LINE, (0.0, y), (5.6, y))
    canvas.rectangle(2.2, y - high, wide, high)
    return canvas


def _torn_edge() -> Canvas:
    canvas = Canvas(6.2, SIGN)
    tab = HoleMark((4,), draw=True)
    draw_box(canvas, Box(0.2, 5.0, tab, ends="torn"), 0.2, _SMALL, Look())
    return canvas
