"""The song's key, derived from harp and position, and the spelling of its notes."""

from __future__ import annotations

from typing import NamedTuple

from formsheet.music import pitch
from formsheet.music.chord import Chord
from formsheet.music.degree import spelled

# Key signatures in common use have at most six sharps or flats.
_MOST_ACCIDENTALS = 6
_RELATIVE = 3  # fifths from a major key up to the minor key that shares its signature

#: The positions 1 to 12 as players write them. Common practice, no source.
POSITIONS = ("1st", "2nd", "3rd", *(f"{n}th" for n in range(4, 13)))

# Letters above the root of chord tones whose spelling differs from that of the degree, by quality
# and distance: the raised fifth and the diminished seventh. A raised ninth is spelled
# as the blue third that it is on the harp: our own choice.
_CHORD_LETTERS = {("+", 8): 4, ("+7", 8): 4, ("dim7", 9): 6}


class Key(NamedTuple):
    """A key note and a mode."""

    tonic: str
    minor: bool

    @property
    def name(self) -> str:
        """The key as players write it: "D", "C minor"."""
        return f"{self.tonic} minor" if self.minor else self.tonic

    @property
    def pitch_class(self) -> int:
        """The key note in semitones above C."""
        return pitch.pitch_class(self.tonic)

    @property
    def signature(self) -> int:
        """The number of sharps in the key signature; flats are negative."""
        return pitch.fifths(self.tonic) - (_RELATIVE if self.minor else 0)

    def above_root(self, midi: int, chord: Chord) -> int:
        """Semitones of a pitch (or pitch class) above the root of a chord, 0 to 11."""
        return (midi - self.pitch_class - chord.root) % 12

    def degree(self, midi: int, chord: Chord) -> str:
        """The degree of a pitch over a chord: "b7", "bb7" over a diminished seventh chord."""
        return chord.degree(self.above_root(midi, chord))

    def spell(self, pitch_class: int, chord: Chord | None = None) -> str:
        """The name of a pitch class (0 to 11) in this key, over a chord.

        A chord tone is spelled by the chord (the third of VI7 in C is C#), any other note by the
        key (the blue fifth of C is Gb).
        """
        if chord is not None:
            root = chord.root_name(self.tonic)
            distance = (pitch_class - pitch.pitch_class(root)) % 12
            if letters := _CHORD_LETTERS.get((chord.quality, distance)):
                return pitch.simplified(pitch.steps_above(root, letters, distance))
            if distance in chord.tones:
                return spelled(pitch_class, root)
        return spelled(pitch_class, self.tonic)

    def spell_degree(self, pitch_class: int, chord: Chord) -> str:
        """The name of a pitch class (0 to 11) by its degree over a chord.

        The 7 of C7 is B and its b5 Gb, whatever the key.
        """
        root = chord.root_name(self.tonic)
        if (pitch_class - pitch.pitch_class(root)) % 12 in chord.tones:
            return self.spell(pitch_class, chord)
        return spelled(pitch_class, root)

    def spell_octave(self, midi: int, chord: Chord | None = None) -> str:
        """Name with octave of a MIDI note in this key, middle C being C4."""
        return pitch.with_octave(self.spell(midi % 12, chord), midi)


def song_key(harp_key: str, position: int, minor: bool = False) -> Key:
    """The song's key: in position n (1 to 12), n - 1 fifths above the key of the harp.

    The key note is spelled so that the signature has the fewest accidentals.
    Common practice, no source.
    """
    sharps = Key(harp_key, minor).signature + position - 1
    while sharps > _MOST_ACCIDENTALS:
        sharps -= 12
    while sharps < -_MOST_ACCIDENTALS:
        sharps += 12
    return key_of_signature(sharps, minor)


def position_name(position: int) -> str:
    """A position, 1 to 12, as players write it: 1 is "1st", 2 is "2nd"."""
    return POSITIONS[position - 1]


def key_of_signature(sharps: int, minor: bool) -> Key:
    """The major or minor key with this number of sharps; flats are negative."""
    return Key(pitch.name_at_fifths(sharps + (_RELATIVE if minor else 0)), minor)


def harp_key(tonic: str, position: int) -> str:
    """The key stamped on the harp that plays in `tonic` in a position, 1 to 12.

    Stamped keys have at most five flats or six sharps. Common practice, no source.
    """
    return pitch.name_at_fifths((pitch.fifths(tonic) - position + 6) % 12 - 5)


def position_of(harp: str, tonic: str) -> int:
    """The position, 1 to 12, in which a harp plays in the key of `tonic`."""
    return (pitch.fifths(tonic) - pitch.fifths(harp)) % 12 + 1
