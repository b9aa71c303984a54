"""Built-in tunings: the reeds of a ten-hole harp, in semitones above hole 1 blow.

Richter: OEIS A291810; Wikipedia, "Richter-tuned harmonica". The other tunings change a few
reeds of it; which ones is common practice, no source.
"""

from __future__ import annotations

from typing import NamedTuple

HOLES = 10


class Tuning(NamedTuple):
    """Two rows of reeds, hole 1 first, in semitones above hole 1 blow."""

    name: str
    blow: tuple[int, ...]
    draw: tuple[int, ...]


RICHTER = Tuning(
    "richter",
    blow=(0, 4, 7, 12, 16, 19, 24, 28, 31, 36),
    draw=(2, 7, 11, 14, 17, 21, 23, 26, 29, 33),
)
# Minor thirds on the blow reeds; draw thirds and sevenths lowered to match.
NATURAL_MINOR = Tuning(
    "natural minor",
    blow=(0, 3, 7, 12, 15, 19, 24, 27, 31, 36),
    draw=(2, 7, 10, 14, 17, 21, 22, 26, 29, 33),
)
# Minor thirds on the blow reeds and a lowered sixth; the leading notes are unchanged.
HARMONIC_MINOR = Tuning(
    "harmonic minor",
    blow=(0, 3, 7, 12, 15, 19, 24, 27, 31, 36),
    draw=(2, 7, 11, 14, 17, 20, 23, 26, 29, 32),
)
# Richter with 5 draw raised a half step: a major seventh in second position.
COUNTRY = Tuning(
    "country",
    blow=RICHTER.blow,
    draw=(2, 7, 11, 14, 18, 21, 23, 26, 29, 33),
)

TUNINGS = {tuning.name: tuning for tuning in (RICHTER, NATURAL_MINOR, HARMONIC_MINOR, COUNTRY)}
