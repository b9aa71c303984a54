"""Chords on a harp, as a table and as data."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.judge.chart import Chart, ChartNote
from formsheet.judge.harmony import ChordOnHarp, sounding_name
from formsheet.judge.words import tabs_words
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.pitch import with_octave
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES
from formsheet.report.chart import chart_lines


def chords_table(chords: Sequence[ChordOnHarp], harp: Harp, key: Key) -> list[str]:
    """For each chord: roots, blocks, splits, and how every tone is played."""
    return [
        line
        for each in chords
        for line in (_title(each.chord, key), *_tones_and_blocks(each, harp, key))
    ]


def charted_table(
    chords: Sequence[ChordOnHarp],
    charts: Sequence[Chart],
    harp: Harp,
    key: Key,
    colour: bool = False,
) -> list[str]:
    """For each chord its chart, then what `chords_table` has of it.

    `charts`: one for each of the chords. `colour`: for a terminal that shows it.
    """
    lines = []
    for each, chart in zip(chords, charts, strict=True):
        lines += ["", _title(each.chord, key), *chart_lines(chart, colour)]
        lines += _tones_and_blocks(each, harp, key)
    return lines


def _title(chord: Chord, key: Key) -> str:
    return f"{chord}  {chord.name(key.tonic)}"


def _tones_and_blocks(each: ChordOnHarp, harp: Harp, key: Key) -> list[str]:
    pairs = [tab for tab in each.blocks if len(tab.holes) == 2]
    whole = [breath for breath in Breath if _all_across(pairs, breath)]
    named = [f"any holes next to each other, {breath.word}" for breath in whole]
    named += [
        f"{tab} ({sounding_name(tab, harp, key, each.chord)})"
        for tab in each.blocks
        if len(tab.holes) > 2 and tab.breath not in whole
    ]
    two = [str(tab) for tab in pairs if tab.breath not in whole]
    octaves = sorted(each.splits, key=lambda tab: len({m % 12 for m in harp.pitches(tab)}) > 1)
    bends = [f"{tone.degree} {tabs_words(tone.tabs)}" for tone in each.tones if not tone.natural]
    return [
        f"  roots       {tabs_words(each.roots)}",
        f"  blocks      {tabs_words(named)}",
        *([f"  two holes   {tabs_words(two)}"] if two or not whole else []),
        f"  splits      {tabs_words(octaves)}",
        *(f"  {tone.degree:<11} {tabs_words(tone.tabs)}" for tone in each.tones[1:]),
        *([f"  only bent   {'; '.join(bends)}"] if bends else []),
    ]


def _all_across(pairs: Sequence[Tab], breath: Breath) -> bool:
    """Whether any two neighbouring holes sound the chord on this breath."""
    return sum(tab.breath is breath for tab in pairs) == HOLES - 1


def chords_data(
    chords: Sequence[ChordOnHarp], charts: Sequence[Chart], harp: Harp, key: Key
) -> list[dict[str, Any]]:
    """The contents of `charted_table` as data."""
    return [
        {
            "chord": str(each.chord),
            "name": each.chord.name(key.tonic),
            "tones": {tone.degree: [str(tab) for tab in tone.tabs] for tone in each.tones},
            "only_bent": [tone.degree for tone in each.tones if not tone.natural],
            "blocks": [
                {"tab": str(tab), "sounds": sounding_name(tab, harp, key, each.chord)}
                for tab in each.blocks
            ],
            "splits": [
                {"tab": str(tab), "sounds": sounding_name(tab, harp, key, each.chord)}
                for tab in each.splits
            ],
            "notes": [_note(note, each.chord, key) for note in chart.notes],
        }
        for each, chart in zip(chords, charts, strict=True)
    ]


def _note(note: ChartNote, chord: Chord, key: Key) -> dict[str, str]:
    name = key.spell_degree(note.midi % 12, chord)
    return {
        "tab": str(note.tab),
        "pitch": with_octave(name, note.midi),
        "degree": note.degree,
        "verdict": note.verdict.word,
    }
