"""Pitches and the accidentals that a reader needs in a measure."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from formsheet.exports.musicxml.element import add
from formsheet.music import pitch
from formsheet.music.key import Key

_SIGNS = {-2: "flat-flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double-sharp"}


class Accidentals:
    """The accidentals in force in one measure, starting from its key signature."""

    def __init__(self, key: Key) -> None:
        count = key.signature
        order = pitch.FIFTHS_ORDER  # order of sharps in a signature; flats in reverse
        letters = order[:count] if count >= 0 else order[count:]
        self._signed = dict.fromkeys(letters, 1 if count > 0 else -1)
        self._met: dict[tuple[str, str], int] = {}  # letter and octave -> alteration

    def needed(self, name: str) -> str | None:
        """The sign to write before a note such as "Bb4", or None where it is in force."""
        letter, octave, altered = parts(name)
        in_force = self._met.get((letter, octave), self._signed.get(letter, 0))
        self._met[letter, octave] = altered
        return None if altered == in_force else _SIGNS[altered]


def parts(name: str) -> tuple[str, str, int]:
    """Letter, octave and alteration of a name such as "Bb4"."""
    plain = name.rstrip("-0123456789")
    letter, altered = pitch.split_name(plain)
    return letter, name[len(plain) :], altered


def add_pitch(note: Element, name: str) -> None:
    """Add the pitch of a name such as "Bb4"."""
    letter, octave, altered = parts(name)
    element = add(note, "pitch")
    add(element, "step", letter)
    if altered:
        add(element, "alter", altered)
    add(element, "octave", octave)
