"""How players count a bar: "1 &", "1 e & a", "1 trip let"; in 12/8 and 6/8 "1 & a".

Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction

from formsheet.music.rhythm import Meter

#: The words for the parts of a beat, by how it is divided; the beat itself is its number.
HALVES = ("", "&")
TRIPLET = ("", "trip", "let")
SIXTEENTHS = ("", "e", "&", "a")
COMPOUND = ("", "&", "a")  # the eighths of a beat that divides in three


def _places(*divisions: tuple[str, ...]) -> dict[Fraction, str]:
    """The counting words by their places in the beat, 0 to 1."""
    return {Fraction(at, len(each)): word for each in divisions for at, word in enumerate(each)}


_IN_HALVES = _places(HALVES)
_IN_THREE = _places(TRIPLET)
_IN_FOUR = _places(SIXTEENTHS)
_IN_ANY = _IN_THREE | _IN_FOUR
_IN_COMPOUND = _places(COMPOUND)


def count_words(onset: Fraction, meter: Meter) -> str:
    """How a place in the bar (in quarters) is counted: "1", "2 &", "4 a", "2 + 1/8"."""
    beat, part = divmod(onset / meter.beat, 1)
    words = _IN_COMPOUND if meter.compound else _IN_ANY
    return f"{beat + 1} {words.get(part, f'+ {part}')}".rstrip()


def words_at(places: Collection[Fraction], meter: Meter) -> Mapping[Fraction, str]:
    """Counting words for the onsets in a beat, by place (0 to 1); some places have no word.

    If thirds of the beat or of its half are mixed with other parts, only the halves have words.
    """
    if meter.compound:
        return _IN_COMPOUND
    in_threes = {place.denominator % 3 == 0 for place in places if place}
    return _IN_HALVES if len(in_threes) > 1 else _IN_ANY


def division(places: Collection[Fraction], meter: Meter) -> tuple[str, ...]:
    """The words for the equal parts into which onsets at these places divide a beat.

    An undivided beat is counted in halves, in a compound meter in thirds.
    """
    if meter.compound:
        return COMPOUND
    inside = set(places) - {Fraction(0)}
    if inside and inside <= _IN_THREE.keys():
        return TRIPLET
    return SIXTEENTHS if inside & (_IN_FOUR.keys() - _IN_HALVES.keys()) else HALVES
