"""The chords that a lick is to be played on, bar by bar, and the pitches that it then wants."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.arrange.sounds import Line, Sound, lick_line
from formsheet.lesson.model import AskedBar, Facts, Kind, Lick
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import Form, FormBar
from formsheet.music.key import Key
from formsheet.recast.degrees import mapped
from formsheet.recast.naming import bare

_OCTAVE = 12


@dataclass(frozen=True, slots=True)
class Wanted:
    """A sound of the lick and what it becomes on its new chord."""

    sound: Sound  # as the lick has it
    technique: str
    old: Chord
    new: Chord
    midi: tuple[int, ...]  # low to high, on the new chord


def written_for(lick: Lick) -> list[FormBar]:
    """The chords that a lick is written for: of alternatives the first."""
    return [tuple(slot[0] for slot in bar) for bar in lick.on]


def asked_bars(chords: Sequence[FormBar]) -> tuple[AskedBar, ...]:
    """Chords as a lick asks for them: by the numeral alone, where that means them too."""
    return tuple(tuple((_asked(chord),) for chord in bar) for bar in chords)


def _asked(chord: Chord) -> Chord:
    plain = parse_chord(bare(chord))
    return plain if chord.meets(plain) else chord


def sounding(bars: Sequence[FormBar], form: Form | None) -> tuple[FormBar, ...]:
    """The chords as the form plays them: IV is its IV7; as they are, where it has none such."""
    there = form.chords if form else ()
    return tuple(
        tuple(next((each for each in there if each.meets(chord)), chord) for chord in bar)
        for bar in bars
    )


def shifts(lick: Lick, chords: Sequence[FormBar]) -> list[int]:
    """How far the first bar's root may move, in semitones: an octave at most."""
    up = (chords[0][0].root - written_for(lick)[0][0].root) % _OCTAVE
    places = (up + octave * _OCTAVE for octave in (-1, 0, 1))
    return [place for place in places if abs(place) <= _OCTAVE]


def wanted_line(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, shift: int
) -> tuple[Wanted, ...]:
    """The lick on other chords, one entry a bar.

    `shift` is how far the first bar's root moves, in semitones; every later root moves to the
    place nearest to that, so that the line stays together.
    """
    line = lick_line(lick, facts.harp, facts.meter.bar)
    techniques = [
        mark.technique
        for bar in (lick.pickup, *lick.bars)
        for mark in bar
        if mark.kind is Kind.NOTE
    ]
    old_bars = written_for(lick)
    found = []
    for sound, technique in zip(line, techniques, strict=True):
        old = _chord_at(old_bars, sound, facts.meter.bar)
        new = _chord_at(chords, sound, facts.meter.bar)
        midi = {_recast(each, old, new, key, shift) for each in sound.midi}
        found.append(Wanted(sound, technique, old, new, tuple(sorted(midi))))
    return tuple(found)


def _chord_at(bars: Sequence[FormBar], sound: Sound, length: Fraction) -> Chord:
    """The chord under a sound; a pick-up leads into the first."""
    if not sound.bar:
        return bars[0][0]
    bar = bars[sound.bar - 1]
    return bar[int(sound.onset / length * len(bar))]


def _recast(midi: int, old: Chord, new: Chord, key: Key, shift: int) -> int:
    """One tone on the new chord."""
    distance = (midi - key.pitch_class - old.root) % _OCTAVE
    up = (new.root - old.root - shift + _OCTAVE // 2) % _OCTAVE - _OCTAVE // 2
    return midi + shift + up + mapped(distance, old, new) - distance


def as_line(wanted: Sequence[Wanted]) -> Line:
    """What is wanted as a line for the search; what is written once and wanted alike, one mark."""
    return tuple(
        Sound(
            midi=each.midi,
            bar=each.sound.bar,
            onset=each.sound.onset,
            gap=each.sound.gap,
            bends=each.sound.bends,
            mark=(each.sound.mark, each.midi),
        )
        for each in wanted
    )
