"""Marks above the staff: swing, tempo, and the signs of our own scores at which a lick begins."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree.ElementTree import Element

from formsheet.music.swing import STRAIGHT, SWING, Feel
from formsheet.notes.scores.numbers import number, number_of, text_of, whole_of
from formsheet.vocabulary.techniques import TECHNIQUES

_SWING = re.compile(r"\b(swing|swung|shuffle)", re.IGNORECASE)
_STRAIGHT = re.compile(r"\b(straight|even) ?(eighths|8ths|feel)?\b", re.IGNORECASE)
_NO_SWING = re.compile(r"\b(no|not|without|don.t) (swing|swung|shuffle)", re.IGNORECASE)
_UNITS: dict[str, Fraction] = {
    "whole": Fraction(4),
    "half": Fraction(2),
    "quarter": Fraction(1),
    "eighth": Fraction(1, 2),
    "16th": Fraction(1, 4),
}
_SLOWEST, _FASTEST = 5, 1000  # quarters a minute that can be meant


def feel_of(element: Element) -> Feel | None:
    """The feel from here on: by the `swing` of a sound, by notes in the tempo mark, by words."""
    for swing in element.iter("swing"):
        if swing.find("straight") is not None:
            return STRAIGHT
        first, second = whole_of(swing, "first"), whole_of(swing, "second")
        if text_of(swing, "swing-type") in ("", "eighth") and first and second and first >= second:
            return Feel(Fraction(first, first + second))
    if element.find(".//metronome-tuplet") is not None:  # two eighths are a quarter and an eighth
        return SWING
    words = " ".join(each.text or "" for each in element.iter("words"))
    if _STRAIGHT.search(words) or _NO_SWING.search(words):
        return STRAIGHT
    return SWING if _SWING.search(words) else None


def tempo_of(element: Element) -> Fraction | None:
    """The tempo in quarters a minute."""
    sounds = [element] if element.tag == "sound" else element.findall("sound")
    for sound in sounds:
        found = number(sound.get("tempo"))
        if found and _SLOWEST <= found <= _FASTEST:
            return found.limit_denominator(100)
    for mark in element.findall("direction-type/metronome"):
        unit = _UNITS.get(text_of(mark, "beat-unit"), Fraction(0))
        dots = len(mark.findall("beat-unit-dot"))
        found = number_of(mark, "per-minute")
        if found and unit:
            quarters = found * unit * (2 - Fraction(1, 2 ** min(dots, 2)))
            if _SLOWEST <= quarters <= _FASTEST:
                return quarters.limit_denominator(100)
    return None


#: Articulations of MusicXML 4.0, and the techniques that they are here.
_ARTICULATIONS = {"accent": "accent", "staccato": "short", "scoop": "scoop"}


def articulation_of(note: Element) -> str:
    """The technique that the articulation of a note is; "" without one."""
    signs = [sign.tag for each in note.findall("notations/articulations") for sign in each]
    return next((_ARTICULATIONS[sign] for sign in signs if sign in _ARTICULATIONS), "")


def technique_of(element: Element) -> str:
    """A technique in slanted words above the next note, as our own scores have it."""
    for words in element.findall("direction-type/words"):
        text = (words.text or "").strip()
        if words.get("font-style") == "italic" and text in TECHNIQUES:
            return text
    return ""


def section_of(element: Element) -> tuple[str, str] | None:
    """The letter in a circle at which a lick begins in our own scores, and the title beside it."""
    words = element.findall("direction-type/words")
    if not words or words[0].get("enclosure") != "circle":
        return None
    title = (words[1].text or "").strip() if len(words) > 1 else ""
    return (words[0].text or "").strip(), title
