"""The bass: root, third, fifth and sixth of the bar's chord, walking to the next.

Common practice, no source; the lines are our own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.music.chord import Chord
from formsheet.sound.grooves import Groove, hits

LOWEST_ROOT = 31  # MIDI; roots lie from this G up to the F# above it
_OCTAVE, _FIFTH = 12, 7

#: A note of the bass: place in the bar in beats, without swing; MIDI number.
Plucked = tuple[Fraction, int]


def root_of(chord: Chord, tonic: int) -> int:
    """MIDI number of a chord's root in the bass; `tonic` is the key's pitch class."""
    return LOWEST_ROOT + (tonic + chord.root - LOWEST_ROOT) % _OCTAVE


def shared_bar(
    chords: Sequence[tuple[Fraction, Chord]], end: Fraction, tonic: int, groove: Groove
) -> Iterator[Plucked]:
    """A bar that chords share, by their places in beats, as far as `end`."""
    ends = [*(start for start, _ in chords[1:]), end]
    for (start, chord), until in zip(chords, ends, strict=True):
        root = root_of(chord, tonic)
        for place, tone in hits(groove.half):
            if start + place < until:
                yield start + place, root + _above_root(tone, chord)


def walked_bar(
    chord: Chord, since: int, following: Chord | None, tonic: int, groove: Groove
) -> Iterator[Plucked]:
    """A bar of one chord, which has been held for `since` bars before; then comes `following`."""
    root = root_of(chord, tonic)
    walked = [
        (place, root + _above_root(tone, chord)) for place, tone in hits(groove.walk[since % 2])
    ]
    if groove.leads and following and following.root != chord.root:
        before, (place, _) = walked[-2], walked[-1]
        walked[-1] = (place, _leading(before[1], root_of(following, tonic)))
    yield from walked


def _leading(before: int, target: int) -> int:
    """A half step from the target, on the side that the line comes from.

    From farther away than a fifth the half step would be a leap: then the coming chord's fifth,
    from which the line falls on its root.
    """
    if before > target + _FIFTH:
        return target + _FIFTH
    return target - 1 if before < target else target + 1


def _above_root(tone: str, chord: Chord) -> int:
    """Semitones above the root of a tone of the pattern, as the chord has it."""
    return {"R": 0, "3": chord.third, "5": chord.fifth, "6": _sixth(chord), "8": _OCTAVE}[tone]


def _sixth(chord: Chord) -> int:
    """The sixth over a major third; over a minor one the seventh, which the key has for sure."""
    if 9 in chord.tones:
        return 9
    return 9 if chord.tones >= {4, 7} else 10
