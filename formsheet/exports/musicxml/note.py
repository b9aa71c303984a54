"""One written mark as `note` elements: a rest, a note, or a chord of several.

The tab is the first line of lyrics below the staff, since every program that reads the format
prints lyrics. The standard's `technical` has marks for strings, keys and finger holes, but none
for breath, and `other-technical` is rarely drawn. The lesson's own syllables are the second line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from xml.etree.ElementTree import Element

from formsheet.exports.musicxml.element import add
from formsheet.exports.musicxml.pitches import add_pitch
from formsheet.lesson.model import Kind
from formsheet.music.rhythm import Value
from formsheet.tune.timeline import PlayedMark

TYPES = {"w": "whole", "h": "half", "q": "quarter", "e": "eighth", "s": "16th"}

#: Techniques that the standard has a sign for; the others are words above the staff.
SIGNS = {"accent": "accent", "short": "staccato", "scoop": "scoop"}


@dataclass(frozen=True, slots=True)
class Setting:
    """The notation of a mark that depends on its neighbours."""

    names: tuple[str, ...] = ()  # "Bb4", low to high; of a rest: none
    signs: tuple[str | None, ...] = ()  # the accidental before each
    tied_from: bool = False
    tied_on: bool = False
    beams: tuple[str, ...] = ()  # "begin", "continue": of the eighths, then of the sixteenths
    tuplet: tuple[str, ...] = ()  # "start", "stop"


def add_notes(
    measure: Element, played: PlayedMark, setting: Setting, divisions: int, whole_bar: bool
) -> None:
    """Add a mark; the tones of a chord one after another."""
    if not setting.names:
        note = add(measure, "note")
        add(note, "rest", **({"measure": "yes"} if whole_bar else {}))
        _length(note, played.mark.value, divisions, setting, typed=not whole_bar)
        _notations(note, played, setting, first=True)
        return
    for index, name in enumerate(setting.names):
        note = add(measure, "note")
        if index:
            add(note, "chord")
        add_pitch(note, name)
        sign = setting.signs[index]
        _length(note, played.mark.value, divisions, setting, sign=sign, beamed=not index)
        _notations(note, played, setting, first=not index)
        if not index and played.mark.kind is Kind.NOTE:
            _lyrics(note, played)


def _length(
    note: Element, value: Value, divisions: int, setting: Setting, *,
    sign: str | None = None, typed: bool = True, beamed: bool = False,
) -> None:  # fmt: skip
    add(note, "duration", whole(value.length * divisions))
    for kind, tied in (("stop", setting.tied_from), ("start", setting.tied_on)):
        if tied and setting.names:
            add(note, "tie", type=kind)
    add(note, "voice", 1)
    if not typed:
        return
    add(note, "type", TYPES[value.letter])
    for _ in range(value.dots):
        add(note, "dot")
    if sign:
        add(note, "accidental", sign)
    if value.triplet:
        ratio = add(note, "time-modification")
        add(ratio, "actual-notes", 3)
        add(ratio, "normal-notes", 2)
    for number, beam in enumerate(setting.beams if beamed else (), start=1):
        add(note, "beam", beam, number=str(number))


def _notations(note: Element, played: PlayedMark, setting: Setting, *, first: bool) -> None:
    ties = [
        kind
        for kind, tied in (("stop", setting.tied_from), ("start", setting.tied_on))
        if tied and setting.names
    ]
    tuplet: Sequence[str] = setting.tuplet if first else ()
    sign = SIGNS.get(played.mark.technique) if first else None
    if not (ties or tuplet or sign):
        return
    notations = add(note, "notations")
    for kind in ties:
        add(notations, "tied", type=kind)
    for kind in tuplet:
        shown = {"bracket": "yes"} if kind == "start" else {}
        add(notations, "tuplet", type=kind, number="1", **shown)
    if sign:
        add(add(notations, "articulations"), sign)


def _lyrics(note: Element, played: PlayedMark) -> None:
    for number, name, text in (
        ("1", "tab", str(played.mark.tab)),
        ("2", "syllable", played.mark.syllable),
    ):
        if text:
            lyric = add(note, "lyric", number=number, name=name, placement="below")
            add(lyric, "syllabic", "single")
            add(lyric, "text", text)


def whole(number: Fraction) -> int:
    """A number of divisions as int; divisions are chosen so that it is whole."""
    assert number.denominator == 1
    return number.numerator
