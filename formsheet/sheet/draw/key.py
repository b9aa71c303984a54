"""The signs of "how to read this sheet", drawn by the same functions as the bars."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil

from formsheet.sheet.draw.again import HEIGHT, repeat_stroke
from formsheet.sheet.draw.bar_lines import draw_closing
from formsheet.sheet.draw.breath import draw_path, draw_tab
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.holes import NumberStyle, depth, drop
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.rhythm import draw_rhythm
from formsheet.sheet.draw.rows import FEEL, ROUND, STEM_LENGTH, SYLLABLE, TECHNIQUE, Rows
from formsheet.sheet.draw.scale import INSET, Scale
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle
from formsheet.sheet.view import HoleMark, Mark

WIDTH = 24.0  # mm
ENTRY_ROW = 11.0  # mm, approximate height of a row
TITLE = 15.0  # mm, height of its title with the space above
_SIZE = 14.0  # pt
_ONE = Fraction(1)


def _note(holes: tuple[int, ...], draw: bool, **changes: object) -> Mark:
    tab = HoleMark(holes, draw)
    for name in ("bend", "overbend", "split"):
        if name in changes:
            tab = replace(tab, **{name: changes.pop(name)})  # type: ignore[arg-type]
    return replace(Mark(Fraction(0), _ONE, "q", tab=tab), **changes)  # type: ignore[arg-type]


def _row(*marks: Mark) -> tuple[Mark, ...]:
    onset = Fraction(0)
    out = []
    for mark in marks:
        out.append(replace(mark, onset=onset))
        onset += mark.length
    return tuple(out)


_B4, _D4 = _note((4,), False), _note((4,), True)
_HELD = replace(_D4, hold=True, tab=None)
_TABS: dict[str, tuple[Mark, ...]] = {
    "blow": (_B4,),
    "draw": (_D4,),
    "turn": _row(_B4, _D4),
    "block": (_note((2, 3), True),),
    "split": (_note((1, 4), False, split=True),),
    "overblow": (_note((6,), False, overbend=True),),
    "overdraw": (_note((7,), True, overbend=True),),
    "hold": _row(replace(_D4, tied_on=True), _HELD),
    "landing": _row(_D4, replace(_D4, landing=True)),
}
_EIGHTH = replace(_D4, value="e", length=Fraction(1, 2))
_SIXTEENTH = replace(_D4, value="s", length=Fraction(1, 4))
_REST = replace(_D4, tab=None)
_THIRD = replace(_D4, value="e", length=Fraction(1, 3), triplet=True)
_RHYTHMS: dict[str, tuple[Mark, ...]] = {
    "whole": (replace(_D4, value="w", length=Fraction(4)),),
    "half": (replace(_D4, value="h", length=Fraction(2)),),
    "quarter": (_D4,),
    "eighths": _row(_EIGHTH, _EIGHTH),
    "sixteenths": _row(*[_SIXTEENTH] * 4),
    "dot": (replace(_D4, dots=1),),
    "triplet": _row(_THIRD, _THIRD, _THIRD),
    "rests": _row(_REST, replace(_REST, value="e", length=_ONE)),
}
_WORDS: dict[str, tuple[str, Font]] = {
    "syllable": ("ka", SYLLABLE),
    "round": ("2 of 4", ROUND),
    "pickup": ("pick-up", ROUND),
    "pickup-once": ("pick-up once", ROUND),
    "feel": ("swing", FEEL),
}


def _bend_depth(sign: str) -> int:
    """The half steps of a bend's sign; 0 for any other sign."""
    depth = sign.removeprefix("bend")
    return int(depth) if sign.startswith("bend") and depth.isdecimal() else 0


def key_sign(sign: str, marks: MarkStyle = BREATH_LINE, text: str = "") -> Canvas | None:
    """The sign of a name, or None if there is none; for a bend `bend2`, with its half steps.

    `marks`: how breath is shown; `text`: the text of the sign if it varies.
    """
    if depth := _bend_depth(sign):
        return _tab_sign((_note((3,), True, bend=depth),), NumberStyle(_SIZE, marks=marks))
    if sign in _TABS:
        return _tab_sign(_TABS[sign], NumberStyle(_SIZE, marks=marks))
    if sign == "technique":
        return _word_sign(text or "wah", TECHNIQUE)
    if sign in _RHYTHMS:
        return _rhythm_sign(_RHYTHMS[sign])
    if sign in _WORDS:
        return _word_sign(*_WORDS[sign])
    others = {"again": _again_sign, "repeat": _repeat_sign}
    return others[sign]() if sign in others else None


def key_columns(room: float) -> int:
    """The number of columns in a page width of `room` millimetres."""
    return int(room // 86)


def key_height(entries: int, room: float) -> float:
    """The approximate height (mm) of the key."""
    return TITLE + ENTRY_ROW * ceil(entries / key_columns(room))


def _scale(marks: tuple[Mark, ...]) -> Scale:
    length = float(marks[-1].onset + marks[-1].length)
    return Scale(WIDTH, (WIDTH - INSET - 1) / max(length, 1.0))


def join_sign(last: HoleMark, first: HoleMark, marks: MarkStyle = BREATH_LINE) -> Canvas:
    """Two notes side by side on the breath line: the end of a lick and the start of the next."""
    return _tab_sign(_join(last, first), NumberStyle(_SIZE, marks=marks))


def join_height(last: HoleMark, first: HoleMark, marks: MarkStyle = BREATH_LINE) -> float:
    """The height (mm) of the sign of a join."""
    return sum(_tab_room(_join(last, first), NumberStyle(_SIZE, marks=marks)))


def _join(last: HoleMark, first: HoleMark) -> tuple[Mark, ...]:
    return _row(*(Mark(Fraction(0), _ONE, "q", tab=tab) for tab in (last, first)))


def _tab_room(marks: tuple[Mark, ...], style: NumberStyle) -> tuple[float, float]:
    """Height (mm) above and below the breath line."""
    sides = {mark.tab.draw for mark in marks if mark.tab is not None}
    up = depth(marks, style, draw=False) + 0.4 if False in sides else 2.0
    down = depth(marks, style, draw=True, dropped=drop(marks, style)) + 0.4
    return up, down if True in sides else 2.0


def _tab_sign(marks: tuple[Mark, ...], style: NumberStyle) -> Canvas:
    dropped = drop(marks, style)
    y, down = _tab_room(marks, style)
    canvas = Canvas(WIDTH, y + down)
    scale = _scale(marks)
    draw_path(
        canvas,
        scale,
        y,
        marks,
        before=None,
        runs_in=False,
        runs_on=False,
        length=Fraction(99),
        edge=WIDTH,
        style=style,
    )
    draw_tab(canvas, scale, y, marks, style, before=None, dropped=dropped)
    return canvas


def _rhythm_sign(marks: tuple[Mark, ...]) -> Canvas:
    top = 2.8 if any(mark.triplet for mark in marks) else 0.4
    head = top + STEM_LENGTH
    canvas = Canvas(WIDTH, head + 1.4)
    rows = Rows(0, 0, 0, stem_top=top, head=head, count=0, height=canvas.height)
    draw_rhythm(canvas, _scale(marks), rows, marks, _ONE)
    return canvas


def _word_sign(text: str, font: Font) -> Canvas:
    canvas = Canvas(WIDTH, 5.6)
    canvas.text(INSET - 1.2, 4.2, text, font)
    return canvas


def _again_sign() -> Canvas:
    canvas = Canvas(WIDTH, HEIGHT + 0.6)
    repeat_stroke(canvas, INSET - 1.0, canvas.height / 2)
    return canvas


def _repeat_sign() -> Canvas:
    canvas = Canvas(WIDTH, 8.0)
    draw_closing(canvas, INSET + 1.75, 0.5, 7.0, "repeat", canvas.height / 2)
    return canvas
