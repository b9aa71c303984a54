"""Map each degree of the old chord to a degree of the new one.

Root goes to root, third to third, fifth to fifth, seventh to seventh, each as in the new chord.
Every other note keeps its degree: a blue third stays a blue third, a ninth a ninth. Common
practice, no source.
"""

from __future__ import annotations

from formsheet.music.chord import Chord


def chord_parts(chord: Chord) -> dict[str, int]:
    """Root, third, fifth and seventh of a chord, as far as it has them, in semitones above it."""
    parts = {"root": 0, "third": chord.third, "fifth": chord.fifth}
    return parts if chord.seventh is None else {**parts, "seventh": chord.seventh}


def mapped(distance: int, old: Chord, new: Chord) -> int:
    """Semitones above the new root for a note `distance` (0 to 11) above the old one."""
    here, there = chord_parts(old), chord_parts(new)
    for kind, each in here.items():
        if each == distance and kind in there:
            return there[kind]
    return distance
