"""Chords on a harp, as a table and as data."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from formsheet.judge.harmony import ChordOnHarp, sounding_name
from formsheet.music.harp import Harp
from formsheet.music.key import Key

_NONE = "none"


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
