"""The verdict on a tone over a chord; the first rule that matches decides.

- chord tone: it is a tone of the chord as written;
- idiomatic: over I the blue notes of the key (b3, b5, b7); the b3 over any dominant chord, which
  is its #9;
- colour: the 9 and the 13; the b9 and the b13 of V in a minor key; the 4 over a minor chord; the
  b7 over a plain triad;
- avoid: a half step above a chord tone (b9, b6, the 4 over a major third); the 7 over a chord
  with a b7, a bb7 or a minor third; a major third over a minor chord; over a plain I, IV or V of
  a major key the 7 too, if the tune has blue notes, since a blues has sevenths there;
- colour: all else.

A block or split has the worst verdict of its tones.

Sources: the avoid notes are those of chord-scale theory, Nettles and Graf, "The Chord Scale Theory
and Jazz Harmony" (1997), tabled in Wikipedia, "Avoid note". The blue notes were measured near
319, 583 and 1038 cents above the key note: Cutting, "Microtonal analysis of blue notes and the
blues scale", Empirical Musicology Review 13 (2018) 84, doi 10.18061/emr.v13i1-2.6316. The rest is
common practice, no source; the rule on plain triads is our own choice.
"""

from __future__ import annotations

from enum import IntEnum
from functools import cache, lru_cache

from formsheet.music.chord import Chord
from formsheet.music.key import Key

_HOME, _FOURTH, _FIFTH = 0, 5, 7  # roots of I, IV and V, in semitones above the key note
#: The blue notes of a key, in semitones above its key note: b3, b5, b7.
BLUE_NOTES = (3, 6, 10)
#: The blue notes that show that a tune is a blues. A raised 4 below the 5 is in many a folk tune
#: without being a b5. Our own choice.
BLUES_SIGNS = (3, 10)


class Verdict(IntEnum):
    """The relation of a tone to a chord, from best to worst."""

    CHORD_TONE = 0
    IDIOMATIC = 1
    COLOUR = 2
    AVOID = 3

    @property
    def word(self) -> str:
        """The verdict as it is printed: "chord tone"."""
        return self.name.lower().replace("_", " ")


@cache
def tone_verdict(pitch_class: int, chord: Chord, key: Key, blue: bool = False) -> Verdict:
    """The verdict on one tone over a chord of the key, by the rules above.

    `pitch_class` is in semitones above C, 0 to 11. `blue`: the tune has blue notes of its key; it
    matters over plain triads alone (`lesson_is_blue`).
    """
    above_root = key.above_root(pitch_class, chord)
    if above_root in chord.tones:
        return Verdict.CHORD_TONE
    if _idiomatic(above_root, chord):
        return Verdict.IDIOMATIC
    if _colour(above_root, chord, key):
        return Verdict.COLOUR
    return Verdict.AVOID if _avoid(above_root, chord, key, blue) else Verdict.COLOUR


def _idiomatic(above_root: int, chord: Chord) -> bool:
    if chord.root == _HOME and above_root in BLUE_NOTES:
        return True
    return above_root == 3 and chord.dominant


def _colour(above_root: int, chord: Chord, key: Key) -> bool:
    if above_root in (2, 9):
        return True
    if above_root in (1, 8):
        return key.minor and chord.root == _FIFTH and chord.third == 4
    if above_root == 5:
        return chord.minor_third
    return above_root == 10 and chord.seventh is None


def _avoid(above_root: int, chord: Chord, key: Key, blue: bool) -> bool:
    if (above_root - 1) % 12 in chord.tones:
        return True
    if above_root == 11:
        if chord.minor_third or chord.seventh is not None:
            return chord.minor_third or chord.seventh == 10
        return blue and blues_triad(chord, key)
    return above_root == 4 and chord.minor_third


def blues_triad(chord: Chord, key: Key) -> bool:
    """Whether a chord is a plain I, IV or V of a major key: in a blues it would have a seventh."""
    plain = chord.seventh is None and chord.third == 4 and chord.fifth == 7
    return plain and not key.minor and chord.root in (_HOME, _FOURTH, _FIFTH)


@lru_cache(4096)
def verdict_on(midi: tuple[int, ...], chord: Chord, key: Key, blue: bool = False) -> Verdict:
    """The worst verdict of the tones of a note; `midi` numbers, low to high."""
    return max(tone_verdict(each % 12, chord, key, blue) for each in midi)
