"""Chords as players call them: a numeral for the degree, a quality for the kind.

Upper-case numerals have a major third, lower-case a minor one. A chord is what is written: `I` is a
plain triad, `I7` has the seventh (common practice, no source).
"""

from __future__ import annotations

import re
from functools import cache, cached_property
from typing import NamedTuple

from formsheet.music import pitch
from formsheet.music.degree import DEGREES

_ROMAN = {"I": 0, "II": 2, "III": 4, "IV": 5, "V": 7, "VI": 9, "VII": 11}
_ROMAN_STEPS = {"I": 0, "II": 1, "III": 2, "IV": 3, "V": 4, "VI": 5, "VII": 6}
_WORDS = {"I": "one", "II": "two", "III": "three", "IV": "four", "V": "five", "VI": "six",
          "VII": "seven"}  # fmt: skip
_SIGN_WORDS = {"b": "flat-", "#": "sharp-"}
_NUMERAL = re.compile(r"(?P<sign>(?:b|#|♭{1}|♯{1})?)(?P<roman>[IViv]+)(?P<quality>.*)")

#: Quality as written -> chord tones in semitones above the root. The first spelling of each
#: kind is the plain one; "" is the plain triad.
MAJOR_QUALITIES: dict[str, tuple[int, ...]] = {
    "": (0, 4, 7),
    "6": (0, 4, 7, 9),
    "7": (0, 4, 7, 10),
    "9": (0, 2, 4, 7, 10),
    "13": (0, 4, 7, 9, 10),
    "7#9": (0, 3, 4, 7, 10),
    "7b9": (0, 1, 4, 7, 10),
    "7sus4": (0, 5, 7, 10),
    "sus4": (0, 5, 7),
    "maj7": (0, 4, 7, 11),
    "+": (0, 4, 8),
    "+7": (0, 4, 8, 10),
    "dim": (0, 3, 6),
    "dim7": (0, 3, 6, 9),
}
MINOR_QUALITIES: dict[str, tuple[int, ...]] = {
    "": (0, 3, 7),
    "6": (0, 3, 7, 9),
    "7": (0, 3, 7, 10),
    "9": (0, 2, 3, 7, 10),
    "7b5": (0, 3, 6, 10),
    "dim": (0, 3, 6),
    "dim7": (0, 3, 6, 9),
}
_SAME_QUALITY = {"°": "dim", "°7": "dim7", "aug": "+", "7+": "+7", "ø": "7b5", "ø7": "7b5"}

# Chord tones with another name than their distance has as a rule, by quality and distance.
_OWN_DEGREES = {"dim7": {9: "bb7"}, "+": {8: "#5"}, "+7": {8: "#5"}, "7#9": {3: "#9"}}

#: Every spelling of a quality, longest first.
QUALITY_SPELLINGS = tuple(
    sorted({*MAJOR_QUALITIES, *MINOR_QUALITIES, *_SAME_QUALITY} - {""}, key=len, reverse=True)
)

#: Degrees on which a bare major numeral means a seventh chord to blues players, in semitones.
_BLUES_SEVENTHS = frozenset({0, 5, 7})


class _Written(NamedTuple):
    """The fields of a `Chord`."""

    numeral: str  # as written, signs as b and #: "I", "IV7", "bVI7", "ii7"
    root: int  # semitones above the key note, 0 to 11
    letter_steps: int  # letters above the key note, for its spelling
    minor: bool  # lower-case numeral
    quality: str  # as written after the numeral, "" when bare


class Chord(_Written):
    """A chord of the song: `root` semitones above the key note, and its quality."""

    @cached_property
    def tones(self) -> frozenset[int]:
        """Chord tones, in semitones above the root."""
        return frozenset((MINOR_QUALITIES if self.minor else MAJOR_QUALITIES)[self.quality])

    @property
    def dominant(self) -> bool:
        """Whether it has a major third and a minor seventh."""
        return {4, 10} <= self.tones

    @cached_property
    def third(self) -> int:
        """Semitones from the root to the third, or to the fourth in a suspended chord.

        A chord with both thirds is major with a blue note (common practice, no source).
        """
        return next(tone for tone in (4, 3, 5) if tone in self.tones)

    @cached_property
    def fifth(self) -> int:
        """Semitones from the root to the fifth: 7, or 6 or 8 where it is altered."""
        return next(tone for tone in (7, 6, 8) if tone in self.tones)

    @cached_property
    def seventh(self) -> int | None:
        """Semitones from the root to the seventh, else to the sixth; None if it has neither."""
        return next((tone for tone in (10, 11, 9) if tone in self.tones), None)

    def degree(self, above_root: int) -> str:
        """The name of a tone over this chord, by its distance in semitones above the root, 0 to 11.

        A chord tone is named as the chord has it: bb7 in a diminished seventh, #5, #9.
        """
        own = _OWN_DEGREES.get(self.quality)
        return own.get(above_root, DEGREES[above_root]) if own else DEGREES[above_root]

    @property
    def minor_third(self) -> bool:
        """Whether it has a minor third and no major one."""
        return self.third == 3

    def meets(self, asked: Chord) -> bool:
        """Whether a lick written `on` `asked` may be played over this chord of the form.

        A bare numeral allows any chord on its degree with the same third; a numeral with a quality
        allows only that chord.
        """
        if self.root != asked.root:
            return False
        if not asked.quality:
            return self.minor_third == asked.minor
        return self.tones == asked.tones

    @property
    def word(self) -> str:
        """The degree as a word of a lick's name: "four", "flat-six"."""
        roman = self.numeral.removesuffix(self.quality) if self.quality else self.numeral
        return _SIGN_WORDS.get(roman[0], "") + _WORDS[roman.lstrip("b#").upper()]

    def root_name(self, tonic: str) -> str:
        """The root of the chord in the key of `tonic`: the V of "D" is "A"."""
        return pitch.simplified(pitch.steps_above(tonic, self.letter_steps, self.root))

    def name(self, tonic: str) -> str:
        """Letter name in the key of `tonic`: IV7 in "C" is "F7", ii7 is "Dm7"."""
        minor = "m" if self.minor and not self.quality.startswith("dim") else ""
        return f"{self.root_name(tonic)}{minor}{self.quality}"

    def __str__(self) -> str:
        return self.numeral


def in_blues(chord: Chord) -> Chord:
    """The chord as blues players mean it without a form: a bare I, IV or V is a seventh chord.

    Common practice, no source.
    """
    plain = not chord.minor and not chord.quality and chord.root in _BLUES_SEVENTHS
    return parse_chord(f"{chord.numeral}7") if plain else chord


@cache  # few chords, parsed often
def parse_chord(text: str) -> Chord:
    """Parse a numeral with its quality, such as `IV7`, `bVI7`, `ii7`; ValueError for other text."""
    found = _NUMERAL.fullmatch(text)
    roman = found["roman"] if found else ""
    if not found or roman.upper() not in _ROMAN or roman not in (roman.upper(), roman.lower()):
        raise ValueError(f"not a chord numeral: {text!r}")
    minor = roman.islower()
    quality = _SAME_QUALITY.get(found["quality"], found["quality"])
    if quality not in (MINOR_QUALITIES if minor else MAJOR_QUALITIES):
        raise ValueError(f"not a chord quality: {text!r}")
    sign = pitch.plain_signs(found["sign"])
    alteration = {"": 0, "b": -1, "#": 1}[sign]
    return Chord(
        numeral=f"{sign}{roman}{quality}",
        root=(_ROMAN[roman.upper()] + alteration) % 12,
        letter_steps=_ROMAN_STEPS[roman.upper()],
        minor=minor,
        quality=quality,
    )
