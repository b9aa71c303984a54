"""Chords on this harp: the roots, blocks and splits of a chord, and which notes need bends.

All of it is derived from the reeds. It agrees with what players say of second position: I and IV
have a block on holes 1 to 3, V has none (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Set
from functools import cache
from typing import NamedTuple

from formsheet.music import pitch
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.naming import chord_kind, interval_name
from formsheet.music.tab import WIDEST_REACH, Breath, Tab
from formsheet.music.tunings import HOLES

LARGEST_BLOCK = 4  # holes; wider blocks are rare (common practice, no source)


class ChordTone(NamedTuple):
    """One tone of a chord and every single note that sounds it, natural notes first."""

    degree: str
    tabs: tuple[Tab, ...]

    @property
    def natural(self) -> tuple[Tab, ...]:
        """The notes that need no bend."""
        return tuple(tab for tab in self.tabs if not tab.bend)


class ChordOnHarp(NamedTuple):
    """What a harp offers for a chord."""

    chord: Chord
    tones: tuple[ChordTone, ...]  # the root first
    blocks: tuple[Tab, ...]  # neighbouring holes that sound chord tones only, largest first
    splits: tuple[Tab, ...]  # two outer holes that sound chord tones only

    @property
    def roots(self) -> tuple[Tab, ...]:
        """Every single note that sounds the root."""
        return self.tones[0].tabs


def sounding_name(tab: Tab, harp: Harp, key: Key, chord: Chord | None = None) -> str:
    """The name of what a block or split sounds: "G", "G7", "third G B", "octave D".

    Over a chord its tones have the chord's own names: B and Ab in Bdim7 are a diminished seventh.
    A block with two names has the chord's own root, if that is one of them.
    """
    midi = harp.pitches(tab)
    names = [key.spell(note % 12, chord) for note in midi]
    if len(set(names)) == 1:
        return f"octave {names[0]}"
    if len(midi) == 2:
        of_chord = chord and _belongs(tab, harp, pitch_classes(chord, key))
        letters = pitch.letters_apart(*names) if of_chord else None
        return f"{interval_name(*midi, letters)} {' '.join(names)}"
    home = (key.pitch_class + chord.root) % 12 if chord else None
    named = chord_kind(midi, home)
    if named is None:
        return " ".join(names)
    root, kind = named
    return f"{key.spell(root, chord)}{kind}"


def pitch_classes(chord: Chord, key: Key, tones: Set[int] | None = None) -> frozenset[int]:
    """The tones of a chord in semitones above C, 0 to 11.

    `tones`: others than those of the chord, in semitones above its root.
    """
    root = key.pitch_class + chord.root
    return frozenset((root + tone) % 12 for tone in tones or chord.tones)


def blocks(size: int) -> Iterator[Tab]:
    """Every block of `size` neighbouring holes."""
    for breath in Breath:
        for low in range(1, HOLES - size + 2):
            yield Tab(tuple(range(low, low + size)), breath)


def splits() -> Iterator[Tab]:
    """Every split within reach of the mouth (five holes)."""
    for breath in Breath:
        for low in range(1, HOLES - 1):
            for high in range(low + 2, min(low + WIDEST_REACH - 1, HOLES) + 1):
                yield Tab((low, high), breath)


@cache
def chord_on_harp(chord: Chord, key: Key, harp: Harp) -> ChordOnHarp:
    """The notes, blocks and splits of a harp for a chord of the key, bends included."""
    root = (key.pitch_class + chord.root) % 12
    classes = [(root + tone) % 12 for tone in sorted(chord.tones)]
    singles = list(harp.single_notes())
    return ChordOnHarp(
        chord=chord,
        tones=tuple(
            ChordTone(
                key.degree(pitch_class, chord),
                tuple(
                    sorted(
                        (tab for tab, midi in singles if midi % 12 == pitch_class),
                        key=lambda tab: (tab.bend, tab.holes),
                    )
                ),
            )
            for pitch_class in classes
        ),
        blocks=tuple(
            tab
            for size in range(LARGEST_BLOCK, 1, -1)
            for tab in blocks(size)
            if _belongs(tab, harp, classes)
        ),
        splits=tuple(tab for tab in splits() if _belongs(tab, harp, classes)),
    )


def _belongs(tab: Tab, harp: Harp, classes: Collection[int]) -> bool:
    return all(midi % 12 in classes for midi in harp.pitches(tab))
