"""The values of facts out of their words, for a lesson and for the command line."""

from __future__ import annotations

import re
from fractions import Fraction

from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.pitch import plain_signs

SLOWEST, FASTEST = 20, 300  # beats a minute: what a metronome offers

POSITIONS = ("1st", "2nd", "3rd", *(f"{n}th" for n in range(4, 13)))

_ORDINAL = re.compile(r"(\d{1,2})(st|nd|rd|th)?")
_NUMBER = re.compile(r"\d{1,6}(\.\d{1,6})?")


def harp_of(text: str) -> Harp | None:
    """A Richter harp as it is stamped: "C", "Bb", "B♭", "low F"; None if there is none."""
    register, key = harp_words(text)
    return Harp(key, register) if key in HARP_KEYS and register in REGISTERS else None


def harp_words(text: str) -> tuple[str, str]:
    """Register and key of what is said of a harp, known or not, with plain signs."""
    *registers, key = plain_signs(text).split() or [""]
    return " ".join(registers), key


def position_of_words(text: str) -> int | None:
    """A position, 1 to 12, from "2nd" or "2"; None if there is none."""
    found = _ORDINAL.fullmatch(text)
    number = int(found[1]) if found else 0
    return number if 1 <= number <= len(POSITIONS) else None


def tempo_of(text: str) -> Fraction | None:
    """A tempo in beats a minute, whole or decimal, SLOWEST to FASTEST; None if it is none."""
    if not _NUMBER.fullmatch(text):
        return None
    tempo = Fraction(text)
    return tempo if SLOWEST <= tempo <= FASTEST else None
