"""Detect swing in a performance: off-beats that come late, all by about the same amount."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from formsheet.music.swing import HALF_BEAT, SWING, Feel
from formsheet.notes.melody import Tone

#: Range of a late off-beat, in parts of a beat; earlier is even, later a dotted eighth.
_LATE = (Fraction(11, 20), Fraction(7, 10))
#: Tolerance in parts of a beat: an off-beat this near to the half is even, to the feel's swung.
_NEAR = Fraction(1, 20)
#: Place of an onset in a triplet, and its tolerance, in parts of a beat.
_THIRD = Fraction(1, 3)
_NEAR_THIRD = Fraction(1, 16)
#: Tolerance of an onset on the beat, in parts of a beat.
_ON = Fraction(1, 12)
#: Least number of swung beats for swing to be reported.
_FEWEST = 3

_Beats = Mapping[int, Sequence[Fraction]]  # by number of the beat: onsets, in parts of it


@dataclass(frozen=True)
class Swung:
    """The feel, and the beats that are not swung: triplets, sixteenths, even pairs."""

    feel: Feel
    beats: int  # number of swung beats
    written: frozenset[int]

    def even(self, at: Fraction) -> Fraction:
        """The place (in quarters) that an onset would have with even eighths."""
        beat = int((at + _ON) // 1)
        part = at - beat
        if beat in self.written or part <= 0:
            return at
        share = self.feel.share
        if part <= share:
            return beat + part / share * HALF_BEAT
        return beat + HALF_BEAT + (part - share) / (1 - share) * HALF_BEAT


def found_swing(tones: Sequence[Tone]) -> Swung | None:
    """The feel of performed notes if most of their single off-beats are late, else None."""
    beats: dict[int, list[Fraction]] = {}
    for tone in tones:
        beat = int((tone.start + _ON) // 1)
        beats.setdefault(beat, []).append(tone.start - beat)
    lone = [
        offs[0]
        for beat, parts in beats.items()
        if len(offs := _off_beats(parts)) == 1 and not _of_three(beats, beat)
    ]
    late = [part for part in lone if _LATE[0] <= part <= _LATE[1]]
    even = [part for part in lone if abs(part - HALF_BEAT) <= _NEAR]
    if len(late) < _FEWEST or len(late) <= len(even):
        return None
    feel = _feel(Fraction(median(late)))
    written = frozenset(beat for beat in beats if not _swings(beats, beat, feel))
    return Swung(feel, len(late), written)


def _off_beats(parts: Sequence[Fraction]) -> list[Fraction]:
    return [part for part in parts if part > _ON]


def _swings(beats: _Beats, beat: int, feel: Feel) -> bool:
    """Whether a beat is a swung pair, or has no off-beat note."""
    offs = _off_beats(beats[beat])
    if not offs:
        return True
    return len(offs) == 1 and abs(offs[0] - feel.share) <= _NEAR and not _of_three(beats, beat)


def _of_three(beats: _Beats, beat: int) -> bool:
    """Whether a beat is part of a triplet, over one beat or over two."""
    return _has_third(beats.get(beat, ())) or _second_of_three(beats.get(beat + 1, ()))


def _second_of_three(parts: Sequence[Fraction]) -> bool:
    """Whether a beat only has a note on its first third: the last of a triplet over two beats."""
    return len(parts) == 1 and _has_third(parts)


def _has_third(parts: Sequence[Fraction]) -> bool:
    return any(abs(part - _THIRD) <= _NEAR_THIRD for part in parts)


def _feel(share: Fraction) -> Feel:
    """A feel as a teacher would write it: 2:1 if it is near that, else rounded to 1 %."""
    if abs(share - SWING.share) < Fraction(1, 50):
        return SWING
    return Feel(Fraction(round(share * 100), 100))
