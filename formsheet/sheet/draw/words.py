"""Words of the drawing: signs for accidentals, texts that are cut where they are too long."""

from __future__ import annotations

import re

from formsheet.sheet.draw.metrics import Font, advance, width

_ACCIDENTALS = (
    (re.compile(r"\b([A-G])b(?![a-ln-z])"), "\\1♭"),
    (re.compile(r"\b([A-G])#"), "\\1♯"),
    (re.compile(r"(?<![A-Za-z])b(?=b?(?:[IViv]|\d))|(?<=\bb)b(?=\d)|(?<=\d)b(?=\d)"), "♭"),
    (re.compile(r"(?<![A-Za-z])#(?=[IViv]+|\d)|(?<=\d)#(?=\d)"), "♯"),
)


def accidentals(text: str) -> str:
    """The text of chords, keys and degrees with typographic flats and sharps."""
    for pattern, sign in _ACCIDENTALS:
        text = pattern.sub(sign, text)
    return text


def fitted(text: str, font: Font, room: float) -> str:
    """A text that fits in a room (mm): cut between words if possible, and marked by "…"."""
    if width(text, font) <= room:
        return text
    room -= width("…", font)
    fits = 0
    for character in text:
        room -= advance(character, font)
        if room < 0:
            break
        fits += 1
    return (text[: fits + 1].rpartition(" ")[0] or text[:fits]) + "…"
