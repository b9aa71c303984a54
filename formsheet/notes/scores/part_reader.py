"""Walk through one part of a score: notes, chord symbols and marks at their places.

Places are in quarters from the beginning of the part. Each measure is as long as what is in it,
whatever its meter says; `notes.bars` makes bars of them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple
from xml.etree.ElementTree import Element

from formsheet.music import pitch
from formsheet.music.swing import Feel
from formsheet.notes.melody import MOST_BARS, NotesError, Section, Symbol, WrittenBar
from formsheet.notes.scores.chord_symbol import chord_symbol
from formsheet.notes.scores.marks import (
    articulation_of,
    feel_of,
    section_of,
    technique_of,
    tempo_of,
)
from formsheet.notes.scores.numbers import number_of, text_of, whole_of

#: Measures and notes of a part that are read at all; `--bars` chooses among them. Our own choice.
MOST_MEASURES = 5 * MOST_BARS
MOST_WRITTEN = 40_000
_HIGHEST = 127

Voice = tuple[int, str]  # staff and voice


class RawNote(NamedTuple):
    """A note as written, at sounding pitch."""

    midi: int
    start: Fraction
    end: Fraction
    voice: Voice
    chord: bool  # sounds with the note before
    tied: bool  # goes on from a note before
    tab: str  # from a line of lyrics named `tab`
    technique: str = ""
    syllable: str = ""  # from a line of lyrics named `syllable`


@dataclass
class RawPart:
    """What a part holds."""

    notes: list[RawNote] = field(default_factory=list)
    bars: list[WrittenBar] = field(default_factory=list)
    chords: list[tuple[Fraction, Symbol]] = field(default_factory=list)
    feels: list[tuple[Fraction, Feel]] = field(default_factory=list)
    sections: list[Section] = field(default_factory=list)
    keys: list[tuple[int, str]] = field(default_factory=list)  # sharps as written, and mode
    tempos: list[Fraction] = field(default_factory=list)  # quarters a minute
    steps: int = 0  # half steps that it sounds above what is written
    several_steps: bool = False
    counts: dict[str, int] = field(default_factory=dict)  # what is left out, by kind of remark

    def count(self, kind: str) -> None:
        """One more of what is left out."""
        self.counts[kind] = self.counts.get(kind, 0) + 1


def read_part(measures: Iterable[Element], name: str) -> RawPart:
    """The content of the measures of one part; NotesError where there are too many."""
    walk = _Walk(name)
    for measure in measures:
        walk.take(measure)
    return walk.part


class _Walk:
    def __init__(self, name: str) -> None:
        self.part = RawPart()
        self._name = name
        self._divisions = Fraction(1)
        self._meter = ""
        self._begin = Fraction(0)  # of the measure
        self._at = Fraction(0)
        self._reach = Fraction(0)  # how far the measure goes
        self._last = Fraction(0)  # where the last note began, for chords
        self._technique = ""  # in words before the next note

    def take(self, measure: Element) -> None:
        if len(self.part.bars) >= MOST_MEASURES:
            raise NotesError(
                f"{self._name} has more than {MOST_MEASURES} bars: export a part of the score"
            )
        self._at = self._reach = self._begin
        for element in measure:
            reader = getattr(self, "_" + element.tag.replace("-", "_"), None)
            if element.tag in _READ and reader:
                reader(element)
        length = self._reach - self._begin
        meter = self._meter or "4/4"
        implicit = measure.get("implicit") == "yes"
        if not length:  # a measure without anything: a whole bar of rest
            above, below = map(int, meter.split("/"))
            length = Fraction(4 * above, below)
        number = measure.get("number", "").strip()[:20]
        self.part.bars.append(WrittenBar(number, self._begin, length, meter, implicit))
        self._begin += length

    # ---- Attributes --------------------------------------------------------------------------

    def _attributes(self, element: Element) -> None:
        divisions = number_of(element, "divisions")
        if divisions and divisions > 0:
            self._divisions = divisions
        for key in element.findall("key"):
            if (sharps := whole_of(key, "fifths")) is not None and abs(sharps) <= 7:
                self.part.keys.append((sharps, text_of(key, "mode")))
        time = element.find("time")
        if time is not None:
            self._time(time)
        transpose = element.find("transpose")
        if transpose is not None:
            steps = (whole_of(transpose, "chromatic") or 0) + 12 * (
                whole_of(transpose, "octave-change") or 0
            )
            self.part.several_steps |= bool(self.part.notes) and steps != self.part.steps
            self.part.steps = steps

    def _time(self, time: Element) -> None:
        above = [each.text or "" for each in time.findall("beats")]
        below = [each.text or "" for each in time.findall("beat-type")]
        numbers = [part for each in above for part in each.split("+")]
        if not all(each.strip().isdecimal() and len(each) < 4 for each in [*numbers, *below]):
            return
        if not numbers or len(set(below)) != 1 or int(below[0]) not in (1, 2, 4, 8, 16, 32, 64):
            return
        total = sum(map(int, numbers))
        if total:
            self._meter = f"{total}/{int(below[0])}"

    # ---- Time --------------------------------------------------------------------------------

    def _length(self, element: Element) -> Fraction:
        duration = number_of(element, "duration")
        return max(duration or Fraction(0), Fraction(0)) / self._divisions

    def _backup(self, element: Element) -> None:
        self._at = max(self._begin, self._at - self._length(element))

    def _forward(self, element: Element) -> None:
        self._move(self._length(element))

    def _move(self, length: Fraction) -> None:
        self._at += length
        self._reach = max(self._reach, self._at)

    # ---- Notes -------------------------------------------------------------------------------

    def _note(self, element: Element) -> None:
        if element.find("grace") is not None:
            self.part.count("graces")
            return
        if element.find("cue") is not None:
            self.part.count("cues")
        chord = element.find("chord") is not None
        length = self._length(element)
        start = self._last if chord else self._at
        if not chord:
            self._last = self._at
            self._move(length)
        if element.find("cue") is not None or not length:
            return
        written = element.find("pitch")
        if written is None:
            if element.find("unpitched") is not None:
                self.part.count("unpitched")
            return
        midi = self._midi(written)
        if midi is None:
            self.part.count("no-pitch")
            return
        if len(self.part.notes) >= MOST_WRITTEN:
            raise NotesError(
                f"{self._name} has more than {MOST_WRITTEN} notes in a part: export some bars alone"
            )
        ties = {
            each.get("type")
            for each in (*element.findall("tie"), *element.findall("notations/tied"))
        }
        voice = (whole_of(element, "staff") or 1, text_of(element, "voice") or "1")
        lines = {each.get("name", ""): text_of(each, "text") for each in element.findall("lyric")}
        tab, syllable = lines.get("tab", ""), lines.get("syllable", "")
        for name in lines:
            if name not in ("tab", "syllable"):
                self.part.count("lyrics")
        technique = self._technique or articulation_of(element)
        self._technique = ""
        end, tied = start + length, "stop" in ties
        found = RawNote(midi, start, end, voice, chord, tied, tab, technique, syllable)
        self.part.notes.append(found)

    def _midi(self, written: Element) -> int | None:
        step, octave = text_of(written, "step"), whole_of(written, "octave")
        alter = number_of(written, "alter") or Fraction(0)
        if step not in tuple("ABCDEFG") or octave is None:
            return None
        if alter.denominator != 1:
            self.part.count("quarter-tones")
        exact = pitch.pitch_class(step) + alter + 12 * (octave + 1) + self.part.steps
        # Halfway between two notes the lower: a bend comes down to it.
        midi = -round(-exact) if exact.denominator != 2 else exact.numerator // 2
        return midi if 0 <= midi <= _HIGHEST else None

    # ---- Marks -------------------------------------------------------------------------------

    def _harmony(self, element: Element) -> None:
        symbol, whole = chord_symbol(element, self.part.steps)
        if symbol is None:
            self.part.count("chords-unread")
            return
        if not whole:
            self.part.count("chords-plain")
        offset = (number_of(element, "offset") or Fraction(0)) / self._divisions
        self.part.chords.append((max(self._begin, self._at + offset), symbol))

    def _direction(self, element: Element) -> None:
        if feel := feel_of(element):
            self.part.feels.append((self._at, feel))
        if tempo := tempo_of(element):
            self.part.tempos.append(tempo)
        self._technique = technique_of(element) or self._technique
        if found := section_of(element):
            self.part.sections.append(Section(self._at, *found))

    def _sound(self, element: Element) -> None:
        self._direction(element)

    def _barline(self, element: Element) -> None:
        if element.find("repeat") is not None:
            self.part.count("repeats")
        if element.find("ending") is not None:
            self.part.count("endings")


_READ = ("attributes", "backup", "forward", "note", "harmony", "direction", "sound", "barline")
