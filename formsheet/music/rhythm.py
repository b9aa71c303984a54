"""Note values and meters, in exact fractions of a quarter note."""

from __future__ import annotations

from fractions import Fraction
from functools import cache, cached_property
from typing import NamedTuple

_PLAIN = {
    "w": Fraction(4),
    "h": Fraction(2),
    "q": Fraction(1),
    "e": Fraction(1, 2),
    "s": Fraction(1, 4),
}
VALUE_NAMES = {"w": "whole", "h": "half", "q": "quarter", "e": "eighth", "s": "sixteenth"}


class _WrittenValue(NamedTuple):
    """The fields of a `Value`."""

    letter: str  # w h q e s
    dots: int = 0  # 0 to 2
    triplet: bool = False  # three in the time of two


class Value(_WrittenValue):
    """A note value: whole, half, quarter, eighth or sixteenth, dotted or in a triplet."""

    @cached_property
    def length(self) -> Fraction:
        """Length in quarters."""
        dotted = _PLAIN[self.letter] * (2 - Fraction(1, 2**self.dots))
        return dotted * Fraction(2, 3) if self.triplet else dotted

    @property
    def name(self) -> str:
        """The value in words: "dotted quarter", "eighth triplet"."""
        dots = ("", "dotted ", "double-dotted ")[self.dots]
        return f"{dots}{VALUE_NAMES[self.letter]}{' triplet' if self.triplet else ''}"

    def __str__(self) -> str:
        return f"{self.letter}{'.' * self.dots}{'3' if self.triplet else ''}"


@cache  # a few dozen values, parsed often
def parse_value(text: str) -> Value:
    """Parse a value such as `q`, `q.`, `q..` or `e3`; the caller has checked the text."""
    return Value(text[0], dots=text.count("."), triplet=text.endswith("3"))


class _WrittenMeter(NamedTuple):
    """The fields of a `Meter`."""

    text: str
    beats: int
    beat: Fraction  # in quarters
    strong: frozenset[int]  # beats from 0


class Meter(_WrittenMeter):
    """A meter: beats in a bar, the length of a beat, which beats are strong."""

    @cached_property
    def bar(self) -> Fraction:
        """Length of a bar in quarters."""
        return self.beats * self.beat

    @cached_property
    def compound(self) -> bool:
        """Whether a beat divides in three."""
        return self.beat == Fraction(3, 2)

    def lasts_a_beat(self, length: Fraction) -> bool:
        """Whether a length in quarters is a beat or more."""
        beat = self.beat  # in whole numbers, as below
        return length.numerator * beat.denominator >= beat.numerator * length.denominator

    def on_strong_beat(self, onset: Fraction) -> bool:
        """Whether a place in the bar is on a strong beat."""
        # Integers, not fractions, which are slow: this runs for every note.
        parts = onset.denominator * self.beat.numerator
        beat, rest = divmod(onset.numerator * self.beat.denominator, parts)
        return not rest and beat in self.strong


# Strong beats: one and three of four, the first of three and of two. Common practice, no source.
METERS = {
    meter.text: meter
    for meter in (
        Meter("4/4", 4, Fraction(1), frozenset({0, 2})),
        Meter("12/8", 4, Fraction(3, 2), frozenset({0, 2})),
        Meter("3/4", 3, Fraction(1), frozenset({0})),
        Meter("6/8", 2, Fraction(3, 2), frozenset({0})),
    )
}
