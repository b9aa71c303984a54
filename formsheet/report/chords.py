"""Chords on a harp, as a table and as data."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.judge.harmony import ChordOnHarp, sounding_name
from formsheet.judge.words import tabs_words
from formsheet.music.harp import Harp
from formsheet.music.key import Key


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
        bends = [
            f"{tone.degree} {tabs_words(tone.tabs)}" for tone in each.tones if not tone.natural
        ]
        lines += [
            f"{chord}  {chord.name(key.tonic)}",
            f"  roots       {tabs_words(each.roots)}",
            f"  blocks      {tabs_words(named)}",
            f"  two holes   {tabs_words(pairs)}",
            f"  splits      {tabs_words(each.splits)}",
            *(f"  {tone.degree:<11} {tabs_words(tone.tabs)}" for tone in each.tones[1:]),
        ]
        if bends:
            lines.append(f"  only bent   {'; '.join(bends)}")
    return lines


def chords_data(chords: Sequence[ChordOnHarp], harp: Harp, key: Key) -> list[dict[str, Any]]:
    """The contents of `chords_table` as data."""
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
