"""The whole tune as a MusicXML 4.0 score, `score-partwise`; repeats are written out.

The standard: W3C Music Notation Community Group, "MusicXML 4.0", June 2021.
"""

from __future__ import annotations

import math
from fractions import Fraction
from xml.etree.ElementTree import Element, indent, tostring

from formsheet.exports.musicxml.element import add
from formsheet.exports.musicxml.measure import add_music, add_swing, add_words
from formsheet.exports.musicxml.note import TYPES
from formsheet.exports.musicxml.settings import measure_settings, spelled_notes
from formsheet.lesson.model import Facts
from formsheet.music.key import position_name
from formsheet.music.tunings import TUNINGS
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.swing_times import feel_changes, feel_in_force
from formsheet.tune.timeline import PlayedMark, Tune, goes_on, same_lick

_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN"'
    ' "http://www.musicxml.org/dtds/partwise.dtd">\n'
)
_HARMONICA = 23  # General MIDI 1 sound set, counted from 1


def musicxml(tune: Tune) -> str:
    """The score as XML text; equal tunes give equal texts."""
    score = Element("score-partwise", version="4.0")
    _add_head(score, tune)
    part = add(score, "part", id="P1")
    writer = _Measures(tune)
    for index in range(len(tune.bars)):
        writer.add(part, index)
    indent(score, "  ")
    return _HEAD + tostring(score, encoding="unicode") + "\n"


def _add_head(score: Element, tune: Tune) -> None:
    facts = tune.lesson.facts
    add(add(score, "work"), "work-title", facts.title)
    identification = add(score, "identification")
    if facts.teacher:  # the arranger: the tune itself may be older
        add(identification, "creator", facts.teacher, type="arranger")
    if facts.rights:
        add(identification, "rights", facts.rights)
    encoding = add(identification, "encoding")
    add(encoding, "software", "formsheet")
    for element in ("accidental", "beam"):
        add(encoding, "supports", element=element, type="yes")
    fields = add(identification, "miscellaneous")
    for name, text in _fields(tune):
        add(fields, "miscellaneous-field", text, name=name)
    part = add(add(score, "part-list"), "score-part", id="P1")
    add(part, "part-name", f"Harmonica in {facts.harp.name}")
    add(part, "part-abbreviation", "Harm.")
    instrument = add(part, "score-instrument", id="P1-I1")
    add(instrument, "instrument-name", "Harmonica")
    add(instrument, "instrument-sound", "wind.reed.harmonica")
    midi = add(part, "midi-instrument", id="P1-I1")
    add(midi, "midi-channel", 1)
    add(midi, "midi-program", _HARMONICA)


def _fields(tune: Tune) -> list[tuple[str, str]]:
    """Facts of the lesson for which the format has no element."""
    facts = tune.lesson.facts
    pairs = [
        ("harp", facts.harp.name),
        ("tuning", facts.harp.tuning.name),
        ("reeds", _reeds(facts)),
        ("position", position_name(facts.position)),
        ("form", tune.lesson.form.full_name),
        ("lesson-date", facts.date),
        *(("link", f"{link.title} {link.address}".strip()) for link in facts.links),
    ]
    return [(name, text) for name, text in pairs if text]


def _reeds(facts: Facts) -> str:
    """Both rows of a tuning of the lesson's own, in half steps above hole 1 blow: "0 4 / 2 7"."""
    tuning = facts.harp.tuning
    if TUNINGS.get(tuning.name) == tuning:
        return ""
    return " / ".join(" ".join(map(str, row)) for row in (tuning.blow, tuning.draw))


class _Measures:
    """Writes the bars one after another."""

    def __init__(self, tune: Tune) -> None:
        self._tune = tune
        self._facts: Facts = tune.lesson.facts
        self._divisions = _divisions(tune)
        self._names = spelled_notes(tune)
        self._line_starts = _line_starts(tune)
        self._letters = LickLetters(tune)

    def add(self, part: Element, index: int) -> None:
        """Add the measure of a bar; for the bar before the tune only its pick-up."""
        tune, bar = self._tune, self._tune.bars[index]
        marks = bar.marks if bar.number else [m for m in bar.marks if m.pickup]
        first = not index
        number = index + (0 if tune.pickup else 1)
        implicit = {} if bar.number else {"implicit": "yes"}
        measure = add(part, "measure", number=str(number), **implicit)
        if bar.number in self._line_starts and number > 1:
            add(measure, "print", new_system="yes")
        if first:
            self._add_attributes(measure)
        self._add_heading(measure, index)
        before = tune.bars[index - 1].marks if index else ()
        feels = feel_changes(marks, before, self._facts)
        if first:  # the feel at the start is in the tempo mark
            feels = [(at, feel) for at, feel in feels if at != marks[0].onset]
        settings = measure_settings(
            marks, self._names, self._after(index), tune.lesson.key, self._facts.meter.beat
        )
        add_music(
            measure, bar, marks, settings, feels, tune.lesson.key, self._facts, self._divisions
        )
        self._add_barline(measure, index)

    def _after(self, index: int) -> PlayedMark | None:
        following = self._tune.bars[index + 1 : index + 2]
        return following[0].marks[0] if following and following[0].marks else None

    def _add_attributes(self, measure: Element) -> None:
        lesson, meter = self._tune.lesson, self._facts.meter
        attributes = add(measure, "attributes")
        add(attributes, "divisions", self._divisions)
        key = add(attributes, "key")
        add(key, "fifths", lesson.key.signature)
        add(key, "mode", "minor" if lesson.key.minor else "major")
        time = add(attributes, "time")
        beats, beat_type = meter.text.split("/")
        add(time, "beats", beats)
        add(time, "beat-type", beat_type)
        clef = add(attributes, "clef")
        add(clef, "sign", "G")
        add(clef, "line", 2)
        self._add_tempo(measure)

    def _add_tempo(self, measure: Element) -> None:
        """Add the tempo mark and the feel at the start."""
        facts, meter = self._facts, self._facts.meter
        direction = add(measure, "direction", placement="above")
        metronome = add(add(direction, "direction-type"), "metronome")
        add(metronome, "beat-unit", TYPES["q"])
        if meter.compound:
            add(metronome, "beat-unit-dot")
        add(metronome, "per-minute", f"{float(facts.tempo):g}")
        feel = feel_in_force(self._tune.bars[0].marks[0].mark.swings, facts)
        if not meter.compound:
            add(add(direction, "direction-type"), "words", "swing" if feel.swings else "straight")
        sound = add(direction, "sound", tempo=f"{float(facts.tempo * meter.beat):g}")
        if not meter.compound:
            add_swing(sound, feel)

    def _add_heading(self, measure: Element, index: int) -> None:
        """Add words above the bar: a chorus that begins here, and the lick if it changes."""
        tune, bar = self._tune, self._tune.bars[index]
        for chorus in tune.choruses if len(tune.choruses) > 1 else ():
            if index == chorus.bars[0]:
                times = f", {chorus.pass_number} of {chorus.passes}" if chorus.passes > 1 else ""
                text = (chorus.title or f"Chorus {chorus.number}") + (times if chorus.title else "")
                direction = add(measure, "direction", placement="above")
                add(add(direction, "direction-type"), "rehearsal", text)
        before = tune.bars[index - 1] if index else None
        on = before and (goes_on(before, bar) or (same_lick(before, bar) and bar.slot.round > 1))
        if bar.lick and not on:
            words = add_words(measure, self._letters.of(bar.lick), enclosure="circle")
            if self._letters.first_time(index):
                add(words, "words", bar.lick.title, enclosure="none")

    def _add_barline(self, measure: Element, index: int) -> None:
        last = index == len(self._tune.bars) - 1
        ends = {chorus.bars[-1] for chorus in self._tune.choruses}
        if index in ends:
            barline = add(measure, "barline", location="right")
            add(barline, "bar-style", "light-heavy" if last else "light-light")


def _divisions(tune: Tune) -> int:
    """Divisions of a quarter, so that every length and every place of a chord is whole."""
    edges: set[Fraction] = set()
    for bar in tune.bars:
        edges |= {at for at, _ in bar.chords}
        for played in bar.marks:
            edges |= {played.onset, played.mark.value.length}
    return math.lcm(*(edge.denominator for edge in edges))


def _line_starts(tune: Tune) -> set[int]:
    """The numbers of the bars that begin a line of the form."""
    starts, number = set(), 1
    for line in tune.lesson.form.lines:
        starts.add(number)
        number += len(line)
    return starts
