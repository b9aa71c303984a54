"""Lengths in words."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

from formsheet.music.rhythm import Meter, Value

_VALUES = {
    value.length: value
    for value in (
        Value(letter, dots, triplet)
        for triplet, dots, letter in product((True, False), (2, 1, 0), "wsehq")
        if not (triplet and dots)
    )
}


def value_of(length: Fraction) -> Value | None:
    """The simplest note value of a length in quarters, if there is one."""
    return _VALUES.get(length)


def length_words(length: Fraction, meter: Meter) -> str:
    """A length in quarters as a note value, else in beats: "a dotted quarter", "3 1/2 beats"."""
    value = value_of(length)
    if value and value.dots < 2 and not value.triplet and length < meter.bar:
        return f"{'an' if value.name.startswith('eighth') else 'a'} {value.name}"
    return in_meter(length, meter)


def mixed(number: Fraction) -> str:
    """A fraction as a mixed number: 9/2 is "4 1/2"."""
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def in_meter(length: Fraction, meter: Meter) -> str:
    """A length in quarters in the counting units of the meter: "4 1/2 beats", "13 eighths"."""
    if meter.compound:
        return f"{mixed(length * 2)} eighth{'s' if length * 2 > 1 else ''}"
    if length == Fraction(1, 2):
        return "half a beat"
    return f"{mixed(length)} beat{'s' if length > 1 else ''}"
