"""The kinds of chords in MusicXML 4.0 (`kind-value`), and the qualities of a lesson for them.

The standard: W3C Music Notation Community Group, "MusicXML 4.0", June 2021. In it an added
seventh is minor unless it is altered. One table serves writing and reading.
"""

from __future__ import annotations

Degrees = tuple[tuple[int, int], ...]  # degrees added: value, alteration

#: Quality as written -> kind and degrees added to it, of chords with a major third or none.
MAJOR_KINDS: dict[str, tuple[str, Degrees]] = {
    "": ("major", ()),
    "6": ("major-sixth", ()),
    "7": ("dominant", ()),
    "9": ("dominant-ninth", ()),
    "13": ("dominant-13th", ()),
    "7#9": ("dominant", ((9, 1),)),
    "7b9": ("dominant", ((9, -1),)),
    "7sus4": ("suspended-fourth", ((7, 0),)),
    "sus4": ("suspended-fourth", ()),
    "maj7": ("major-seventh", ()),
    "+": ("augmented", ()),
    "+7": ("augmented-seventh", ()),
    "dim": ("diminished", ()),
    "dim7": ("diminished-seventh", ()),
}
#: The same of chords with a minor third.
MINOR_KINDS: dict[str, tuple[str, Degrees]] = {
    "": ("minor", ()),
    "6": ("minor-sixth", ()),
    "7": ("minor-seventh", ()),
    "9": ("minor-ninth", ()),
    "7b5": ("half-diminished", ()),
    "dim": ("diminished", ()),
    "dim7": ("diminished-seventh", ()),
}

#: Kinds that a lesson has no quality for, and the nearest that it has: (minor, quality).
_NEAREST: dict[str, tuple[bool, str]] = {
    "dominant-11th": (False, "9"),
    "major-ninth": (False, "maj7"),
    "major-11th": (False, "maj7"),
    "major-13th": (False, "maj7"),
    "minor-11th": (True, "9"),
    "minor-13th": (True, "9"),
    "major-minor": (True, ""),
    "suspended-second": (False, "sus4"),
    "power": (False, ""),
    "Neapolitan": (False, ""),
    "Italian": (False, "7"),
    "French": (False, "7"),
    "German": (False, "7"),
    "pedal": (False, ""),
}


def quality_of(kind: str, degrees: Degrees) -> tuple[bool, str, bool] | None:
    """Whether a chord is minor, its quality, and whether that is all of it; None: unknown.

    `degrees` are those added or altered, with their alterations in half steps.
    """
    for minor, kinds in ((False, MAJOR_KINDS), (True, MINOR_KINDS)):
        for quality, written in kinds.items():
            if written == (kind, tuple(sorted(degrees))):
                return minor, quality, True
    for minor, kinds in ((False, MAJOR_KINDS), (True, MINOR_KINDS)):
        for quality, written in kinds.items():
            if written == (kind, ()):
                return minor, quality, False
    return (*_NEAREST[kind], False) if kind in _NEAREST else None
