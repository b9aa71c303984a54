"""Chord symbols: `harmony` elements, as the lesson writes the chord."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from formsheet.exports.musicxml.element import add
from formsheet.music import pitch
from formsheet.music.chord import Chord
from formsheet.music.key import Key

Degrees = tuple[tuple[int, int], ...]  # degrees added: value, alteration

#: Quality as written -> kind (MusicXML 4.0, `kind-value`) and degrees added to it. In the standard
#: an added seventh is minor unless it is altered.
_MAJOR: dict[str, tuple[str, Degrees]] = {
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
_MINOR: dict[str, tuple[str, Degrees]] = {
    "": ("minor", ()),
    "6": ("minor-sixth", ()),
    "7": ("minor-seventh", ()),
    "9": ("minor-ninth", ()),
    "7b5": ("half-diminished", ()),
    "dim": ("diminished", ()),
    "dim7": ("diminished-seventh", ()),
}


def add_harmony(measure: Element, chord: Chord, key: Key, offset: int) -> None:
    """Add a chord symbol `offset` divisions after this point of the measure."""
    harmony = add(measure, "harmony")
    root = chord.root_name(key.tonic)
    letter, alteration = pitch.split_name(root)
    element = add(harmony, "root")
    add(element, "root-step", letter)
    if alteration:
        add(element, "root-alter", alteration)
    kind, degrees = (_MINOR if chord.minor else _MAJOR)[chord.quality]
    add(harmony, "kind", kind, text=chord.name(key.tonic).removeprefix(root))
    for value, altered in degrees:
        degree = add(harmony, "degree", print_object="no")  # the text of `kind` includes it
        add(degree, "degree-value", value)
        add(degree, "degree-alter", altered)
        add(degree, "degree-type", "add")
    if offset:
        add(harmony, "offset", offset)
