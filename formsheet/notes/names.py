"""Read a melody in words: the marks of a lick with pitch names in place of holes.

    q G4 B4 e D5 E5 - =  |  h G4+B4

A pitch has its octave, middle C being C4; `+` joins notes that sound together. Values, rests,
holds and bar lines are those of the lesson language. Bar lines are optional; with bar lines, a
short first bar is a pick-up.
"""

from __future__ import annotations

import re
from fractions import Fraction

from formsheet.lesson.lengths import in_meter
from formsheet.music import pitch
from formsheet.music.rhythm import Meter, parse_value
from formsheet.notes.melody import NotesError, Reading, Tone, written_meter

_VALUE = re.compile(r"[whqes](\.\.?|3)?")
_PITCH = re.compile(r"([A-G](?:b{1,2}|#{1,2})?)(-?\d)")
_DASH = "–"  # a rest, as a word processor writes it
_MOST_MIDI = 127


def midi_of(word: str) -> int:
    """MIDI number of a pitch such as "Bb4"; ValueError for any other word."""
    found = _PITCH.fullmatch(word)
    if not found:
        raise ValueError(f"not a pitch: {word!r}")
    letter, alteration = pitch.split_name(found[1])
    midi = pitch.pitch_class(letter) + alteration + 12 * (int(found[2]) + 1)
    if not 0 <= midi <= _MOST_MIDI:
        raise ValueError(f"not a pitch: {word!r}")
    return midi


def read_names(text: str, meter_text: str = "4/4") -> Reading:
    """A melody written in words; NotesError with the mistake, if there is one."""
    meter, _ = written_meter(meter_text)
    reader = _Reader()
    for word in pitch.plain_signs(text).replace(_DASH, "-").replace("|", " | ").split():
        reader.take(word)
    reader.end_bar()
    if not reader.tones:
        raise NotesError("this melody has no notes")
    bars = [length for length in reader.bars if length]
    pickup = bars[0] if reader.lines and len(bars) > 1 and bars[0] < meter.bar else Fraction(0)
    if reader.lines:
        _check(bars[1:] if pickup else bars, meter)
    tones = (Tone(each.midi, each.start - pickup, each.end - pickup) for each in reader.tones)
    return Reading(tuple(tones), meter_text)


def _check(bars: list[Fraction], meter: Meter) -> None:
    """NotesError unless every bar between bar lines is full; the last may be short."""
    for number, length in enumerate(bars, start=1):
        if length > meter.bar or (length < meter.bar and number < len(bars)):
            raise NotesError(
                f"bar {number} has {in_meter(length, meter)}, and {meter.text} has "
                f"{in_meter(meter.bar, meter)}"
            )


class _Reader:
    def __init__(self) -> None:
        self.length = Fraction(1)
        self.at = Fraction(0)
        self.tones: list[Tone] = []
        self.bars: list[Fraction] = []
        self.lines = False
        self._bar_start = Fraction(0)

    def take(self, word: str) -> None:
        if word == "|":
            self.lines = True
            self.end_bar()
        elif _VALUE.fullmatch(word):
            self.length = parse_value(word).length
        elif word == "-":
            self.at += self.length
        elif word == "=":
            self._hold()
        else:
            self._strike(word)

    def end_bar(self) -> None:
        self.bars.append(self.at - self._bar_start)
        self._bar_start = self.at

    def _hold(self) -> None:
        if not self.tones or self.tones[-1].end != self.at:
            raise NotesError("`=` holds a note, and none sounds before it")
        last = self.tones[-1]
        self.at += self.length
        self.tones[-1] = Tone(last.midi, last.start, self.at)

    def _strike(self, word: str) -> None:
        try:
            midi = tuple(sorted({midi_of(part) for part in word.split("+")}))
        except ValueError:
            from formsheet.vocabulary.misnamed import note_meant

            meant = note_meant(word)
            raise NotesError(
                f"{word} is {meant} here; write {meant}"
                if meant
                else f"unknown mark: {word}; write a pitch with its octave (Bb4), "
                "a value (q e h.), - for a rest, = to hold"
            ) from None
        self.tones.append(Tone(midi, self.at, self.at + self.length))
        self.at += self.length
