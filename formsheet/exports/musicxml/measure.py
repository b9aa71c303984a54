"""One bar of the tune as a `measure`."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from xml.etree.ElementTree import Element

from formsheet.exports.musicxml.element import add
from formsheet.exports.musicxml.harmony import add_harmony
from formsheet.exports.musicxml.note import SIGNS, Setting, add_notes, whole
from formsheet.lesson.model import Facts
from formsheet.music.key import Key
from formsheet.music.swing import Feel
from formsheet.tune.timeline import Bar, PlayedMark

Feels = Sequence[tuple[Fraction, Feel]]  # from where in the bar, and which


def add_music(
    measure: Element, bar: Bar, marks: Sequence[PlayedMark], settings: Sequence[Setting],
    feels: Feels, key: Key, facts: Facts, divisions: int,
) -> None:  # fmt: skip
    """Add chord symbols, changes of feel, words and notes, in order of time."""
    changes = dict(feels)
    for played, setting in zip(marks, settings, strict=True):
        if played.onset in changes:
            add_feel(measure, changes[played.onset])
        for at, chord in bar.chords:
            if bar.number and played.onset <= at < played.end:
                add_harmony(measure, chord, key, whole((at - played.onset) * divisions))
        technique = played.mark.technique
        if technique and technique not in SIGNS:
            add_words(measure, technique, font_style="italic")
        whole_bar = not setting.names and played.mark.value.length == facts.meter.bar
        add_notes(measure, played, setting, divisions, whole_bar)


def add_words(measure: Element, text: str, **attributes: str) -> Element:
    """Add words above the staff; gives the element for others beside them."""
    direction = add(measure, "direction", placement="above")
    words = add(direction, "direction-type")
    add(words, "words", text, **attributes)
    return words


def add_feel(measure: Element, feel: Feel) -> None:
    """Add a change of feel: in words, and as a `swing` element for playback."""
    direction = add(measure, "direction", placement="above")
    add(add(direction, "direction-type"), "words", "swing" if feel.swings else "straight")
    add_swing(add(direction, "sound"), feel)


def add_swing(sound: Element, feel: Feel) -> None:
    """Add the `swing` of a `sound` (MusicXML 4.0): a ratio of whole numbers, such as 2 to 1."""
    swing = add(sound, "swing")
    if not feel.swings:
        add(swing, "straight")
        return
    add(swing, "first", feel.ratio.numerator)
    add(swing, "second", feel.ratio.denominator)
    add(swing, "swing-type", "eighth")
