"""Chords on a harp, as a table and as data."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from formsheet.judge.harmony import ChordOnHarp
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.naming import chord_kind, interval_name
from formsheet.music.tab import Tab

_NONE = "none"


def sounding_name(tab: Tab, harp: Harp, key: Key, chord: Chord | None = None) -> str:
    """What a block or split sounds as: "G", "G7", "third G B", "octave D"."""
    midi = harp.pitches(tab)
    names = [key.spell(note % 12, chord) for note in midi]
    if len(set(names)) == 1:
        return f"octave {names[0]}"
    if len(midi) == 2:
        return f"{interval_name(*midi)} {' '.join(names)}"
    named = chord_kind(midi)
    if named is None:
        return " ".join(names)
    root, kind = named
    return f"{key.spell(root, chord)}{kind}"


def chords_table(chords: Sequence[ChordOnHarp], harp: Harp, key: Key) -> list[str]:
    """For each chord: roots, blocks, splits, and how every tone is played."""
    lines = []
    for each in chords:
        chord = each.chord
        named = [
            f"{tab} ({sounding_name(tab, harp, key, chord)})"
            for tab in each.blocks
            if len(tab.holes) > 2
        ]
        pairs = [str(tab) for tab in each.blocks if len(tab.holes) == 2]
        bends = [f"{tone.degree} {_listed(tone.tabs)}" for tone in each.tones if not tone.natural]
        lines += [
            f"{chord}  {chord.name(key.tonic)}",
            f"  roots       {_listed(each.roots)}",
            f"  blocks      {_listed(named)}",
            f"  two holes   {_listed(pairs)}",
            f"  splits      {_listed(each.splits)}",
            *(f"  {tone.degree:<11} {_listed(tone.tabs)}" for tone in each.tones[1:]),
        ]
        if bends:
            lines.append(f"  only bent   {'; '.join(bends)}")
    return lines


def _listed(items: Iterable[object]) -> str:
    return ", ".join(map(str, items)) or _NONE


def chords_data(chords: Sequence[ChordOnHarp], harp: Harp, key: Key) -> list[dict[str, Any]]:
    """The same as data."""
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
        }
        for each in chords
    ]
