"""Pitch: names, their place on the line of fifths, MIDI numbers and hertz.

A pitch name is a letter and its accidentals: "C", "Bb", "F#". Names in text use `b` and `#`;
the drawing sets the real signs.
"""

from __future__ import annotations

import re
from functools import cache

LETTERS = "CDEFGAB"
_LETTER_SEMITONES = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
FIFTHS_ORDER = "FCGDAEB"  # the line of fifths; C is 0, F is -1, G is 1
_NAME = re.compile(r"([A-G])(b{0,3}|#{0,3})")

_PLAIN_SIGNS = str.maketrans({"♭": "b", "♯": "#"})

OCTAVE = 12  # semitones
A4_HERTZ = 440.0  # ISO 16:1975
A4_MIDI = 69  # MIDI 1.0


def plain_signs(text: str) -> str:
    """The text with `b` and `#` for the real signs: "B♭" is "Bb"."""
    return text.translate(_PLAIN_SIGNS)


def split_name(name: str) -> tuple[str, int]:
    """Letter and alteration in semitones of a pitch name; ValueError for other text."""
    found = _NAME.fullmatch(name)
    if not found:
        raise ValueError(f"not a pitch name: {name!r}")
    letter, signs = found.groups()
    return letter, signs.count("#") - signs.count("b")


def accidentals(alteration: int) -> str:
    """The accidentals for an alteration in semitones: -1 is "b", 2 is "##"."""
    return "#" * alteration if alteration > 0 else "b" * -alteration


@cache  # few names, used for every note
def pitch_class(name: str) -> int:
    """Semitones above C, 0 to 11; ValueError if `name` is not a pitch name."""
    letter, alteration = split_name(name)
    return (_LETTER_SEMITONES[letter] + alteration) % 12


def fifths(name: str) -> int:
    """Place on the line of fifths: C is 0, G is 1, F is -1, Bb is -2."""
    letter, alteration = split_name(name)
    return FIFTHS_ORDER.index(letter) - 1 + 7 * alteration


def name_at_fifths(place: int) -> str:
    """The pitch name at a place on the line of fifths, -15 (Fbb) to 19 (B##)."""
    alteration, index = divmod(place + 1, 7)
    return FIFTHS_ORDER[index] + accidentals(alteration)


def steps_above(name: str, letter_steps: int, semitones: int) -> str:
    """The name `letter_steps` letters and `semitones` above `name`: ("C", 2, 3) is "Eb"."""
    letter, _ = split_name(name)
    wanted = LETTERS[(LETTERS.index(letter) + letter_steps) % 7]
    alteration = (pitch_class(name) + semitones - _LETTER_SEMITONES[wanted] + 6) % 12 - 6
    return wanted + accidentals(alteration)


def letters_apart(low: str, high: str) -> int:
    """Letters from one name up to another within an octave, 0 to 6: "B" to "Ab" is 6."""
    return (LETTERS.index(high[0]) - LETTERS.index(low[0])) % 7


def simplified(name: str) -> str:
    """The name without double or triple accidentals: "Abb" becomes "G"."""
    _, alteration = split_name(name)
    if abs(alteration) < 2:
        return name
    return name_at_fifths(fifths(name) + (12 if alteration < 0 else -12))


def with_octave(name: str, midi: int) -> str:
    """The name with its octave number, middle C (MIDI 60) being C4; Cb5 is MIDI 71."""
    _, alteration = split_name(name)
    return f"{name}{(midi - alteration) // 12 - 1}"


def hertz(midi: float) -> float:
    """Frequency in hertz, in equal temperament (ISO 16: A4 = 440 Hz, MIDI note 69)."""
    return float(A4_HERTZ * 2.0 ** ((midi - A4_MIDI) / 12))
