"""The views of the harp map, with the holes that the tune uses, and of the key."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.music.key import Key
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES
from formsheet.sheet import view
from formsheet.sheet.mark_styles import BOXES, MarkStyle
from formsheet.sheet.sheet_words import KEY, SIGN_WORDS
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
    bars: Sequence[view.Bar], choruses: Sequence[view.Chorus], marks: MarkStyle = BOXES
) -> tuple[view.KeyEntry, ...]:
    """Legend entries for the signs that occur in these bars."""
    return tuple(_entries(bars, choruses, marks))


def _entries(
    bars: Sequence[view.Bar], choruses: Sequence[view.Chorus], marks: MarkStyle
) -> Iterator[view.KeyEntry]:
    occurring = {sign for bar in bars for mark in bar.marks for sign in _signs(mark)}
    if any(
        line[-1].marks and line[-1].marks[-1].tied_on for each in choruses for line in each.lines
    ):
        occurring.add("torn")
    if {"overblow", "overdraw"} <= occurring:
        occurring = occurring - {"overblow", "overdraw"} | {"overbend"}
    breath = {"blow": marks.blow_words, "draw": marks.draw_words}
    for sign, words in KEY.items():
        if sign in ("blow", "draw", "length"):
            yield view.KeyEntry(sign, breath.get(sign, words))
        elif sign in occurring:
            yield view.KeyEntry(sign, words)
    techniques = {mark.technique for bar in bars for mark in bar.marks}
    for name in SIGN_WORDS:
        if name in techniques:
            yield view.KeyEntry("technique", SIGN_WORDS[name], name)


def _signs(mark: view.Mark) -> Iterator[str]:
    tab = mark.tab
    if tab is None:
        return
    if tab.bend:
        yield "bend"
    if tab.overbend:
        yield "overdraw" if tab.draw else "overblow"
    if len(tab.holes) > 1 and tab.holes[-1] - tab.holes[0] > 1:
        yield "split" if tab.split else "block"
    if mark.landing:
        yield "landing"
