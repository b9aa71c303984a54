"""The bass: root, third, fifth and sixth of the bar's chord, walking to the next.

Common practice, no source; the lines are our own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.music.chord import Chord
from formsheet.sound.grooves import Groove, hits

LOWEST_ROOT = 31  # MIDI; roots are from this G up to the F# above it
_OCTAVE, _FIFTH = 12, 7

#: A bass note: place in the bar in beats, without swing; MIDI number.
Plucked = tuple[Fraction, int]


def root_of(chord: Chord, tonic: int) -> int:
    """MIDI number of a chord's root in the bass; `tonic` is the key's pitch class."""
    return LOWEST_ROOT + (tonic + chord.root - LOWEST_ROOT) % _OCTAVE


def shared_bar(
    chords: Sequence[tuple[Fraction, Chord]], end: Fraction, tonic: int, groove: Groove
) -> Iterator[Plucked]:
    """A bar shared by chords, given with their places in beats; `end` is its length in beats."""
    ends = [*(start for start, _ in chords[1:]), end]
    for (start, chord), until in zip(chords, ends, strict=True):
        root = root_of(chord, tonic)
        for place, tone in hits(groove.half):
            if start + place < until:
                yield start + place, root + _above_root(tone, chord)


def walked_bar(
    chord: Chord, since: int, following: Chord | None, tonic: int, groove: Groove
) -> Iterator[Plucked]:
    """A bar of one chord; `since` bars before had it too, and `following` comes next."""
    root = root_of(chord, tonic)
    walked = [
        (place, root + _above_root(tone, chord)) for place, tone in hits(groove.walk[since % 2])
    ]
    if groove.leads and following and following.root != chord.root:
        before, (place, _) = walked[-2], walked[-1]
        walked[-1] = (place, _leading(before[1], root_of(following, tonic)))
    yield from walked


def _leading(before: int, target: int) -> int:
    """The note before `target`: a half step from it, on the side from which the line comes.

    If the line is more than a fifth above, a half step would be a leap: then it is the fifth of
    the next chord.
    """
    if before > target + _FIFTH:
        return target + _FIFTH
    return target - 1 if before < target else target + 1


def _above_root(tone: str, chord: Chord) -> int:
    """Semitones above the root of a tone of the pattern, taken from the chord."""
    return {"R": 0, "3": chord.third, "5": chord.fifth, "6": _sixth(chord), "8": _OCTAVE}[tone]


def _sixth(chord: Chord) -> int:
    """The sixth over a major third; over a minor third the minor seventh, always in the key."""
    if 9 in chord.tones:
        return 9
    return 9 if chord.tones >= {4, 7} else 10
