"""Names for notes that sound together: an interval of two, a chord of three or more."""

from __future__ import annotations

from collections.abc import Sequence

#: Intervals in semitones within an octave, as players name them.
INTERVALS = (
    "octave",
    "minor second",
    "second",
    "minor third",
    "third",
    "fourth",
    "tritone",
    "fifth",
    "minor sixth",
    "sixth",
    "minor seventh",
    "major seventh",
)

#: Letters and semitones of the intervals that the tones of diminished and augmented chords make ->
#: name. Theory of music, as any textbook has it; held against music21 in the tests.
_SPELLED_INTERVALS: dict[tuple[int | None, int], str] = {
    (1, 3): "augmented second",
    (2, 2): "diminished third",
    (3, 4): "diminished fourth",
    (4, 8): "augmented fifth",
    (5, 10): "augmented sixth",
    (6, 9): "diminished seventh",
}

#: Kind of chord -> its tones above the root, plainest first.
CHORD_KINDS: dict[str, frozenset[int]] = {
    "": frozenset({0, 4, 7}),
    "m": frozenset({0, 3, 7}),
    "7": frozenset({0, 4, 7, 10}),
    "m7": frozenset({0, 3, 7, 10}),
    "dim": frozenset({0, 3, 6}),
    "6": frozenset({0, 4, 7, 9}),
    "m6": frozenset({0, 3, 7, 9}),
    "maj7": frozenset({0, 4, 7, 11}),
    "m7b5": frozenset({0, 3, 6, 10}),
    "dim7": frozenset({0, 3, 6, 9}),
    "+": frozenset({0, 4, 8}),
    "sus4": frozenset({0, 5, 7}),
    "9": frozenset({0, 2, 4, 7, 10}),
    "m9": frozenset({0, 2, 3, 7, 10}),
    "add9": frozenset({0, 2, 4, 7}),
}


def interval_name(low: int, high: int, letters: int | None = None) -> str:
    """The interval between two MIDI notes, reduced to an octave: "third", "octave".

    `letters`: how many letters apart they are spelled, 0 to 6, where that counts: B and Ab are a
    sixth by their sound, and a diminished seventh in Bdim7.
    """
    if low == high:
        return "unison"
    semitones = (high - low) % 12
    return _SPELLED_INTERVALS.get((letters, semitones), INTERVALS[semitones])


def chord_kind(midi: Sequence[int], home: int | None = None) -> tuple[int, str] | None:
    """Pitch class of the root, and kind, of the chord made of some MIDI notes; None if unknown.

    If the notes have two names (C6 is Am7), the one with `home` (a pitch class) as root is
    preferred, then the one with the lowest note as root.
    """
    classes = [note % 12 for note in midi]
    for root in sorted(dict.fromkeys(classes), key=lambda each: each != home):
        tones = frozenset((pitch_class - root) % 12 for pitch_class in classes)
        for kind, wanted in CHORD_KINDS.items():
            if tones == wanted:
                return root, kind
    return None
