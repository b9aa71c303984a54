"""A chord symbol of a score, at sounding pitch."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from formsheet.music import pitch
from formsheet.music.chord_kinds import quality_of
from formsheet.notes.melody import Symbol
from formsheet.notes.scores.numbers import text_of, whole_of

#: Roots by half steps above C, as players name them.
_ROOTS = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def chord_symbol(element: Element, steps: int) -> tuple[Symbol | None, bool]:
    """The symbol of a `harmony`, `steps` half steps higher; whether that is all that it says.

    None where it has no root (no chord, a numeral), or a kind that is not known.
    """
    step = text_of(element, "root/root-step")
    if step not in tuple("ABCDEFG"):
        return None, True
    altered = max(-2, min(2, whole_of(element, "root/root-alter") or 0))
    root = pitch.simplified(step + pitch.accidentals(altered))
    if steps % 12:
        root = _ROOTS[(pitch.pitch_class(root) + steps) % 12]
    degrees, more = [], False
    for degree in element.findall("degree"):
        value, alter = whole_of(degree, "degree-value"), whole_of(degree, "degree-alter")
        if value is None or text_of(degree, "degree-type") == "subtract":
            more = True
        else:
            degrees.append((value, alter or 0))
    found = quality_of(text_of(element, "kind"), tuple(sorted(degrees)))
    if found is None:
        return None, False
    minor, quality, whole = found
    bass = element.find("bass") is not None
    return Symbol(root, minor, quality), whole and not more and not bass
