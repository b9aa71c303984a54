"""Degrees: the relation of a note to a root, by its distance in semitones."""

from __future__ import annotations

from formsheet.music import pitch

#: Name of each distance in semitones above the root.
DEGREES = ("R", "b9", "9", "b3", "3", "4", "b5", "5", "b6", "6", "b7", "7")

#: Letters above the root in the usual spelling of each of those distances.
_LETTER_STEPS = (0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6)

#: The minor pentatonic scale, in semitones above the key note.
MINOR_PENTATONIC = frozenset({0, 3, 5, 7, 10})


def degree(pitch_class: int, root: int) -> str:
    """The degree of a pitch class over a root, both in semitones above C, 0 to 11."""
    return DEGREES[(pitch_class - root) % 12]


def spelled(pitch_class: int, root_name: str) -> str:
    """The name of a pitch class as a degree of the root: 3 semitones over C is Eb, not D#."""
    distance = (pitch_class - pitch.pitch_class(root_name)) % 12
    return pitch.simplified(pitch.steps_above(root_name, _LETTER_STEPS[distance], distance))
