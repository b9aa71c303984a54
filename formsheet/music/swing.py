"""Swing: how a pair of eighths divides its beat.

2:1 is the triplet feel (common practice, no source). Measured ratios fall as the tempo rises,
while the short note stays near 100 ms: Friberg and Sundstrom, Music Perception 19 (2002) 333.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

HALF_BEAT = Fraction(1, 2)

#: Shortest short note of a swung pair, in seconds (Friberg and Sundstrom, as above).
SHORTEST_SWUNG_NOTE = 0.1

# Patterns as text: few lessons have a ratio.
_RATIO = r"(\d{1,2}):(\d{1,2})"
_PER_CENT = r"(\d{1,2})%"


class Feel(NamedTuple):
    """The share of the beat that the first of two eighths takes: 1/2 straight, 2/3 swing."""

    share: Fraction

    @property
    def swings(self) -> bool:
        """Whether the pair is uneven."""
        return self.share != HALF_BEAT

    @property
    def ratio(self) -> Fraction:
        """The ratio of the first note to the second: 2 for the triplet feel."""
        return self.share / (1 - self.share)

    def place(self, in_beat: Fraction) -> Fraction:
        """The place in a beat (0 to 1) with this feel: only the half-beat moves."""
        return self.share if in_beat == HALF_BEAT else in_beat

    def short_note(self, tempo: Fraction) -> float:
        """Length of the pair's second note in seconds at a tempo in beats a minute."""
        return float((1 - self.share) * 60 / tempo)


STRAIGHT = Feel(HALF_BEAT)
SWING = Feel(Fraction(2, 3))


def parse_ratio(text: str) -> Feel | None:
    """Parse `3:2` or `60%`; None for other text, or if the first note is the shorter one."""
    if ratio := re.fullmatch(_RATIO, text):
        first, second = map(int, ratio.groups())
        share = Fraction(first, first + second) if first and second else Fraction(0)
    elif per_cent := re.fullmatch(_PER_CENT, text):
        share = Fraction(int(per_cent[1]), 100)
    else:
        return None
    return Feel(share) if HALF_BEAT <= share < 1 else None
