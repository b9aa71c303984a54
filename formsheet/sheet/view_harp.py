"""The views of the harp map, with the holes that the tune uses, and of the key."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.music.key import Key
from formsheet.music.rhythm import Meter
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES
from formsheet.sheet import view
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle
from formsheet.sheet.sheet_words import KEY, TECHNIQUES, bend_words, key_words
from formsheet.tune.timeline import Tune


def harp_map(tune: Tune) -> tuple[view.HoleUse, ...]:
    """The ten holes with their notes and the bends that the tune plays on each."""
    used = {note.tab for note in tune.notes}
    return tuple(_hole(tune, hole, used) for hole in range(1, HOLES + 1))


def _hole(tune: Tune, hole: int, used: set[Tab]) -> view.HoleUse:
    harp, key = tune.lesson.facts.harp, tune.lesson.key
    here = [tab for tab in used if hole in tab.holes]
    over = [tab for tab in here if tab.overbend]
    return view.HoleUse(
        hole=hole,
        blow=key.spell(harp.reed(hole, Breath.BLOW) % 12),
        draw=key.spell(harp.reed(hole, Breath.DRAW) % 12),
        blow_used=_natural(here, Breath.BLOW),
        draw_used=_natural(here, Breath.DRAW),
        draw_bends=_bends(here, Breath.DRAW, harp.reed(hole, Breath.DRAW), key),
        blow_bends=_bends(here, Breath.BLOW, harp.reed(hole, Breath.BLOW), key),
        over=key.spell(harp.pitches(over[0])[0] % 12) if over else "",
    )


def _natural(tabs: Sequence[Tab], breath: Breath) -> bool:
    return any(tab.breath is breath and not (tab.bend or tab.overbend) for tab in tabs)


def _bends(tabs: Sequence[Tab], breath: Breath, reed: int, key: Key) -> tuple[tuple[int, str], ...]:
    depths = sorted({tab.bend for tab in tabs if tab.breath is breath and tab.bend})
    return tuple((depth, key.spell((reed - depth) % 12)) for depth in depths)


def key_entries(
    bars: Sequence[view.Bar],
    meter: Meter,
    marks: MarkStyle = BREATH_LINE,
    *,
    repeats: bool = False,
) -> tuple[view.KeyEntry, ...]:
    """Key entries for the signs that occur in these bars; `repeats`: choruses have repeat signs."""
    return tuple(_entries(bars, meter, marks, repeats))


def _entries(
    bars: Sequence[view.Bar], meter: Meter, marks: MarkStyle, repeats: bool
) -> Iterator[view.KeyEntry]:
    occurring = {sign for bar in bars for sign in _signs(bar)} | ({"repeat"} if repeats else set())
    techniques = {mark.technique for bar in bars for mark in bar.marks}
    for sign in KEY:
        if sign == "bend":
            for depth in _bend_depths(bars):
                yield view.KeyEntry(f"bend{depth}", bend_words(depth))
        elif sign == "technique":
            for name in TECHNIQUES:
                if name in techniques:
                    yield view.KeyEntry(sign, TECHNIQUES[name], name)
        elif sign in occurring:
            yield view.KeyEntry(sign, key_words(sign, meter, marks))


def _bend_depths(bars: Sequence[view.Bar]) -> list[int]:
    """The depths of the bends in half steps, each once, ascending."""
    depths = {mark.tab.bend for bar in bars for mark in bar.marks if mark.tab and not mark.hold}
    return sorted(depths - {0})


def _signs(bar: view.Bar) -> Iterator[str]:
    if bar.again:
        yield "again"
    if bar.round:
        yield "round"
    if bar.feels:
        yield "feel"
    breaths = [mark.tab.draw for mark in bar.marks if mark.tab]
    if len(set(breaths)) > 1:
        yield "turn"
    for mark in bar.marks:
        yield from _mark_signs(mark)


_VALUE_SIGNS = {"w": "whole", "h": "half", "q": "quarter", "e": "eighths", "s": "sixteenths"}


def _mark_signs(mark: view.Mark) -> Iterator[str]:
    if mark.hold:
        yield "hold"
    elif mark.tab is None:
        yield "rests"
    else:
        yield _VALUE_SIGNS[mark.value]
        yield from _tab_signs(mark.tab)
    if mark.dots:
        yield "dot"
    if mark.triplet:
        yield "triplet"
    for name in ("landing", "syllable"):
        if getattr(mark, name):
            yield name
    if mark.pickup:
        yield "pickup-once" if mark.once else "pickup"


def _tab_signs(tab: view.HoleMark) -> Iterator[str]:
    if tab.overbend:
        yield "overdraw" if tab.draw else "overblow"
    else:
        yield "draw" if tab.draw else "blow"
    if tab.split:
        yield "split"
    elif len(tab.holes) > 1:
        yield "block"
