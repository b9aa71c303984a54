"""The new chords of a lick, bar by bar, and the pitches that it needs on them."""

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

#: Semitones by which roots move, by the distance up from the old root to the new, 0 to 11.
Plan = Mapping[int, int]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A sound of the lick and its pitches on the new chord."""

    sound: Sound  # in the original lick
    mark: LickMark  # the mark that strikes it
    old: Chord
    new: Chord
    midi: tuple[int, ...]  # low to high, on the new chord

    @property
    def many(self) -> bool:
        """Whether it is a chord or split in the lick."""
        return len(self.sound.midi) > 1


def written_for(lick: Lick) -> list[FormBar]:
    """The chords that a lick is written for: the first of alternatives, with blues sevenths."""
    return [tuple(in_blues(slot[0]) for slot in bar) for bar in lick.on]


def asked_bars(chords: Sequence[FormBar]) -> tuple[AskedBar, ...]:
    """Chords as an `on`: bare numerals where these allow the chords too."""
    return tuple(tuple((_asked(chord),) for chord in bar) for bar in chords)


def _asked(chord: Chord) -> Chord:
    plain = parse_chord(bare(chord))
    return plain if chord.meets(plain) else chord


def sounding(bars: Sequence[FormBar], form: Form | None) -> tuple[FormBar, ...]:
    """The chords as the form has them, else with blues sevenths.

    IV is the form's IV7, or its plain IV.
    """
    there = form.chords if form else ()
    return tuple(
        tuple(next((each for each in there if each.meets(chord)), in_blues(chord)) for chord in bar)
        for bar in bars
    )


def plans(lick: Lick, chords: Sequence[FormBar]) -> list[Plan]:
    """All ways of moving the roots of a lick to the new ones, each by at most an octave.

    If the chords change, the roots may move up to one and down to the other.
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
    """Pairs of old and new chord that sound in the same half of a bar."""
    return [(old[0], new[0]), (old[-1], new[-1])]


def _up(old: Chord, new: Chord) -> int:
    """Semitones up from the old root to the new, 0 to 11."""
    return (new.root - old.root) % _OCTAVE


def wanted_line(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, plan: Plan
) -> tuple[Wanted, ...]:
    """The wanted sounds of a lick on other chords (one entry a bar), roots moved by the plan."""
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
    """The chord under a sound; for a pick-up the first chord."""
    if not sound.bar:
        return bars[0][0]
    return chord_at(chord_places(bars[sound.bar - 1], length), sound.onset)


def _recast(midi: int, old: Chord, new: Chord, key: Key) -> int:
    """A tone with its degree mapped to the new chord; the root stays at the same pitch."""
    distance = key.above_root(midi, old)
    return midi + mapped(distance, old, new) - distance


def as_line(wanted: Sequence[Wanted]) -> Line:
    """The wanted sounds as a line for the search; equal sounds of one mark keep a common mark."""
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
