"""The views of the harp map, with the notes that the tune plays, and of the legend."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.music.tab import Breath, Tab, shaken
from formsheet.music.tunings import HOLES
from formsheet.sheet import view
from formsheet.sheet.mark_styles import BOXES, MarkStyle
from formsheet.sheet.sheet_words import KEY, SIGN_WORDS
from formsheet.tune.timeline import Tune
from formsheet.vocabulary.techniques import SHAKE


def harp_map(tune: Tune) -> tuple[view.HoleUse, ...]:
    """The ten holes with all their notes; those that the tune plays are marked as used."""
    used = set(_sounding(tune))
    return tuple(_hole(tune, hole, used) for hole in range(1, HOLES + 1))


def _sounding(tune: Tune) -> Iterator[Tab]:
    """Each single note that sounds in the tune, those of blocks, splits and shakes too."""
    for note in tune.notes:
        both = shaken(note.tab) if note.mark.technique == SHAKE else None
        for tab in both or (note.tab,):
            for hole in tab.holes:
                yield tab._replace(holes=(hole,))


def _hole(tune: Tune, hole: int, used: set[Tab]) -> view.HoleUse:
    harp, key = tune.lesson.facts.harp, tune.lesson.key
    notes = []
    for breath in Breath:
        tabs = [Tab((hole,), breath, bend) for bend in range(harp.deepest_bend(hole, breath) + 1)]
        over = Tab((hole,), breath, overbend=True)
        for tab in [*tabs, *({over} & used)]:
            name = key.spell(harp.pitches(tab)[0] % 12)
            notes.append(
                view.HoleNote(breath is Breath.DRAW, name, tab in used, tab.bend, tab.overbend)
            )
    return view.HoleUse(hole, tuple(notes))


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
