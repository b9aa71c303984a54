"""Chord symbols: `harmony` elements, as the lesson writes the chord."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from formsheet.exports.musicxml.element import add
from formsheet.music import pitch
from formsheet.music.chord import Chord
from formsheet.music.chord_kinds import MAJOR_KINDS, MINOR_KINDS
from formsheet.music.key import Key


def add_harmony(measure: Element, chord: Chord, key: Key, offset: int) -> None:
    """Add a chord symbol `offset` divisions after this point of the measure."""
    harmony = add(measure, "harmony")
    root = chord.root_name(key.tonic)
    letter, alteration = pitch.split_name(root)
    element = add(harmony, "root")
    add(element, "root-step", letter)
    if alteration:
        add(element, "root-alter", alteration)
    kind, degrees = (MINOR_KINDS if chord.minor else MAJOR_KINDS)[chord.quality]
    add(harmony, "kind", kind, text=chord.name(key.tonic).removeprefix(root))
    for value, altered in degrees:
        degree = add(harmony, "degree", print_object="no")  # the text of `kind` includes it
        add(degree, "degree-value", value)
        add(degree, "degree-alter", altered)
        add(degree, "degree-type", "add")
    if offset:
        add(harmony, "offset", offset)
