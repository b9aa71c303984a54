"""Swing heard in played notes: off-beats that come late, all by about as much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from formsheet.music.swing import HALF_BEAT, SWING, Feel
from formsheet.notes.melody import Tone

#: A late off-beat falls between these parts of a beat; earlier is even, later a dotted eighth.
_LATE = (Fraction(11, 20), Fraction(7, 10))
#: An off-beat within this much of the half is even.
_HALF = Fraction(1, 20)
#: An onset within this much of a third is a triplet's.
_THIRD = Fraction(1, 3)
_NEAR = Fraction(1, 16)
#: On the beat, in parts of it.
_ON = Fraction(1, 12)
#: Fewer swung beats than this are no feel.
_FEWEST = 3


@dataclass(frozen=True)
class Swung:
    """The feel, and the beats that are a triplet and so are not swung."""

    feel: Feel
    beats: int  # in which it was heard
    triplets: frozenset[int]

    def even(self, at: Fraction) -> Fraction:
        """Where a place would be if the eighths were even."""
        beat = int((at + _ON) // 1)
        part = at - beat
        if beat in self.triplets or part <= 0:
            return at
        share = self.feel.share
        if part <= share:
            return beat + part / share * HALF_BEAT
        return beat + HALF_BEAT + (part - share) / (1 - share) * HALF_BEAT


def found_swing(tones: Sequence[Tone]) -> Swung | None:
    """The feel of some played notes, if most of their lone off-beats come late."""
    beats: dict[int, list[Fraction]] = {}
    for tone in tones:
        beat = int((tone.start + _ON) // 1)
        if tone.start - beat > _ON:
            beats.setdefault(beat, []).append(tone.start - beat)
    triplets = frozenset(
        beat
        for beat, parts in beats.items()
        if len(parts) < 3 and any(abs(part - _THIRD) <= _NEAR for part in parts)
    )
    lone = [parts[0] for beat, parts in beats.items() if len(parts) == 1 and beat not in triplets]
    late = [part for part in lone if _LATE[0] <= part <= _LATE[1]]
    even = [part for part in lone if abs(part - HALF_BEAT) <= _HALF]
    if len(late) < _FEWEST or len(late) <= len(even):
        return None
    return Swung(_feel(Fraction(median(late))), len(late), triplets)


def _feel(share: Fraction) -> Feel:
    """A feel as a teacher would write it: to the per cent, the triplet feel where it is near."""
    if abs(share - SWING.share) < Fraction(1, 50):
        return SWING
    return Feel(Fraction(round(share * 100), 100))
