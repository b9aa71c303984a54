"""What bass, drums and chords play in a bar, by meter and feel: patterns as text.

A word is a beat, a character an equal part of it. Drums and chords: `X` loud, `x` plain, `o`
light, `-` nothing. Bass: `R` root, `3` third, `5` fifth, `6` sixth or its substitute, `8` octave,
`-` lets the note before ring. Half-beats swing with the lesson. The patterns are our own choice,
of common elements: a walking shuffle, a waltz, a backbeat on two and four.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from formsheet.music.rhythm import Meter
from formsheet.music.swing import Feel

#: General MIDI percussion (General MIDI 1, percussion key map).
KICK, STICK, SNARE, HAT, CRASH, RIDE = 36, 37, 38, 42, 49, 51

LOUDNESS = {"X": 1.0, "x": 0.7, "o": 0.4}


@dataclass(frozen=True)
class Groove:
    """One way to accompany a bar."""

    walk: tuple[str, str]  # bass in the first and the second bar on a chord; then alternating
    half: str  # bass in a bar shared by chords; starts with each chord, cut where it ends
    drums: tuple[tuple[int, str], ...]
    fill: tuple[tuple[int, str], ...]  # instead of the drums in the last bar of a chorus
    chords: str
    chord_length: float  # beats
    leads: bool = False  # whether the bass's last note leads to the root of the next chord


_SHUFFLE = Groove(
    walk=("R 3 5 6", "8 6 5 3"),
    half="R 5",
    drums=((HAT, "xo Xo xo Xo"), (KICK, "X- -- x- --"), (SNARE, "-- X- -- X-")),
    fill=((HAT, "xo Xo x- --"), (KICK, "X- -- x- -x"), (SNARE, "-- X- -o xX")),
    chords="-- X- -- X-",
    chord_length=0.35,
    leads=True,
)
_EVEN = Groove(
    walk=("RR 55 66 55", "RR 55 66 53"),
    half="RR 55",
    drums=((HAT, "xo xo xo xo"), (KICK, "X- -- Xx --"), (SNARE, "-- X- -- X-")),
    fill=((HAT, "xo xo x- --"), (KICK, "X- -- Xx --"), (SNARE, "-- X- -o xX")),
    chords="X- -x -- X-",
    chord_length=0.4,
)
_WALTZ = Groove(
    walk=("R - -", "5 - 3"),
    half="R",
    drums=((RIDE, "x- xo x-"), (KICK, "X- -- --"), (STICK, "-- x- x-")),
    fill=((RIDE, "x- x- --"), (KICK, "X- -- --"), (SNARE, "-- o- xx")),
    chords="-- x- x-",
    chord_length=0.6,
)
_TWELVE = Groove(
    walk=("R-R 3-3 5-5 6-6", "8-8 6-6 5-5 3-3"),
    half="R-R 5-5",
    drums=((HAT, "xoo Xoo xoo Xoo"), (KICK, "X-- --x X-- ---"), (SNARE, "--- X-- --- X--")),
    fill=((HAT, "xoo Xoo xo- ---"), (KICK, "X-- --x X-- ---"), (SNARE, "--- X-- --o xxX")),
    chords="x-- --- x-- ---",
    chord_length=1.9,
    leads=True,
)
_SIX = Groove(
    walk=("R-- 5-3", "8-- 5-3"),
    half="R-5",
    drums=((RIDE, "xoo xoo"), (KICK, "X-- --o"), (STICK, "--- X--")),
    fill=((RIDE, "xoo x--"), (KICK, "X-- ---"), (SNARE, "--- xoX")),
    chords="-xx -xx",
    chord_length=0.25,
)
_BY_METER = {"3/4": _WALTZ, "12/8": _TWELVE, "6/8": _SIX}


def groove_for(meter: Meter, feel: Feel) -> Groove:
    """The groove for a meter and, in 4/4, for the feel."""
    return _BY_METER.get(meter.text) or (_SHUFFLE if feel.swings else _EVEN)


def hits(pattern: str) -> Iterator[tuple[Fraction, str]]:
    """Each place in beats from the start of the pattern, without swing, and its character."""
    for beat, word in enumerate(pattern.split()):
        for part, sign in enumerate(word):
            if sign != "-":
                yield beat + Fraction(part, len(word)), sign
