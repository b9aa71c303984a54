"""The chords that a lick is to be played on, bar by bar, and the pitches that it then wants."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from formsheet.arrange.sounds import Line, Sound, lick_line
from formsheet.lesson.model import AskedBar, Facts, Kind, Lick, LickMark
from formsheet.music.chord import Chord, in_blues, parse_chord
from formsheet.music.form import Form, FormBar, chord_at, chord_places
from formsheet.music.key import Key
from formsheet.recast.degrees import mapped
from formsheet.recast.naming import bare

_OCTAVE = 12

#: How far roots move, in semitones: by the distance up from the old root to the new, 0 to 11.
Plan = Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A sound of the lick and what it becomes on its new chord."""

    sound: Sound  # as the lick has it
    mark: LickMark  # that strikes it
    old: Chord
    new: Chord
    midi: tuple[int, ...]  # low to high, on the new chord


def written_for(lick: Lick) -> list[FormBar]:
    """The chords that a lick is written for: of alternatives the first, as blues plays it."""
    return [tuple(in_blues(slot[0]) for slot in bar) for bar in lick.on]


def asked_bars(chords: Sequence[FormBar]) -> tuple[AskedBar, ...]:
    """Chords as a lick asks for them: by the numeral alone, where that means them too."""
    return tuple(tuple((_asked(chord),) for chord in bar) for bar in chords)


def _asked(chord: Chord) -> Chord:
    plain = parse_chord(bare(chord))
    return plain if chord.meets(plain) else chord


def sounding(bars: Sequence[FormBar], form: Form | None) -> tuple[FormBar, ...]:
    """The chords as the form plays them; where the form has none such, as blues plays them.

    IV is the form's IV7, or its plain IV.
    """
    there = form.chords if form else ()
    return tuple(
        tuple(next((each for each in there if each.meets(chord)), in_blues(chord)) for chord in bar)
        for bar in bars
    )


def plans(lick: Lick, chords: Sequence[FormBar]) -> list[Plan]:
    """All ways of moving a lick's roots to the new ones, each by an octave at most.

    Where the chords change, the roots may move up to one and down to the other.
    """
    pairs = [
        _up(old, new)
        for bars in zip(written_for(lick), chords, strict=True)
        for old, new in _changes(*bars)
    ]
    ups = list(dict.fromkeys(pairs))
    moves = [
        [up + octave * _OCTAVE for octave in (-1, 0, 1) if abs(up + octave * _OCTAVE) <= _OCTAVE]
        for up in ups
    ]
    found = (dict(zip(ups, each, strict=True)) for each in product(*moves))
    return [plan for plan in found if max(plan.values()) - min(plan.values()) <= _OCTAVE]


def _changes(old: FormBar, new: FormBar) -> list[tuple[Chord, Chord]]:
    """The chords of a bar, old and new, that sound together in one half of it or the other."""
    return [(old[0], new[0]), (old[-1], new[-1])]


def _up(old: Chord, new: Chord) -> int:
    """Semitones up from one root to the other, 0 to 11."""
    return (new.root - old.root) % _OCTAVE


def wanted_line(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, plan: Plan
) -> tuple[Wanted, ...]:
    """The lick on other chords, one entry a bar, its roots moved as the plan says."""
    line = lick_line(lick, facts.harp, facts.meter.bar)
    marks = [mark for bar in (lick.pickup, *lick.bars) for mark in bar if mark.kind is Kind.NOTE]
    old_bars = written_for(lick)
    found = []
    for sound, mark in zip(line, marks, strict=True):
        old = _chord_at(old_bars, sound, facts.meter.bar)
        new = _chord_at(chords, sound, facts.meter.bar)
        moved = plan[_up(old, new)]
        midi = {_recast(each, old, new, key) + moved for each in sound.midi}
        found.append(Wanted(sound, mark, old, new, tuple(sorted(midi))))
    return tuple(found)


def _chord_at(bars: Sequence[FormBar], sound: Sound, length: Fraction) -> Chord:
    """The chord under a sound; a pick-up leads into the first."""
    if not sound.bar:
        return bars[0][0]
    return chord_at(chord_places(bars[sound.bar - 1], length), sound.onset)


def _recast(midi: int, old: Chord, new: Chord, key: Key) -> int:
    """One tone with its degree as the new chord has it, the root where it was."""
    distance = (midi - key.pitch_class - old.root) % _OCTAVE
    return midi + mapped(distance, old, new) - distance


def as_line(wanted: Sequence[Wanted]) -> Line:
    """What is wanted as a line for the search; what is written once and wanted alike, one mark."""
    return tuple(
        Sound(
            midi=each.midi,
            bar=each.sound.bar,
            onset=each.sound.onset,
            gap=each.sound.gap,
            bends=each.sound.bends,
            mark=(each.sound.mark, each.midi, each.new),
        )
        for each in wanted
    )
