"""Fit: every note against the chord that sounds under it.

The verdict on a tone over a chord; the first rule that matches decides:

- chord tone: it is a tone of the chord as written;
- colour: the b7 over a plain triad that is not on I;
- blue note: the b5 of the chord, its b3 unless the chord is minor, or a tone of the minor
  pentatonic of the key (its R, b3, 4, 5, b7); but never a major third over a minor chord;
- colour: the 9 and the 13 (6);
- colour: in a minor key, the b9 of V or V7 (the b6 of the key);
- passing: the 4;
- colour: the 7 over a plain major triad;
- clash: all else.

A block or split has the worst verdict of its tones. These verdicts are common practice, no source.

When a clash matters is our own choice. A note lands on a strong beat, if it lasts a beat or more,
or if a rest follows. A clash that does not land and is left by a half or whole step is a passing
note. A clash shorter than a beat that leads by a half step into a chord tone leans on it.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum
from fractions import Fraction
from functools import cache, lru_cache
from typing import NamedTuple

from formsheet.lesson.model import Kind
from formsheet.music.chord import Chord
from formsheet.music.degree import MINOR_PENTATONIC, degree
from formsheet.music.key import Key
from formsheet.tune.timeline import Bar, Note, PlayedMark, Tune

_HALF_STEP, _WHOLE_STEP = 1, 2  # semitones: a step, as against a leap
_FIFTH, _MINOR_SIXTH = 7, 8  # semitones above the key note


class Verdict(IntEnum):
    """The relation of a note to the chord, from best to worst."""

    CHORD_TONE = 0
    BLUE_NOTE = 1
    COLOUR = 2
    PASSING = 3
    CLASH = 4

    @property
    def word(self) -> str:
        """The verdict as it is printed: "chord tone"."""
        return self.name.lower().replace("_", " ")


class Stretch(NamedTuple):
    """The part of a note that sounds over one chord."""

    bar: int  # index
    onset: Fraction  # in quarters from the bar line
    length: Fraction  # in quarters
    chord: Chord


class NoteFit(NamedTuple):
    """The fit of a note over the chord where it starts, and over those it is held into."""

    note: Note
    stretches: tuple[Stretch, ...]
    degrees: tuple[str, ...]  # of each tone, low to high, over the first chord
    verdict: Verdict  # over the first chord, the worst of its tones; a passing clash is PASSING
    held: tuple[Verdict, ...]  # over each chord it is held into
    lands: bool  # on a strong beat, a beat long or more, or before a rest
    leans: bool  # shorter than a beat, and a half step below or above a chord tone that follows

    @property
    def chord(self) -> Chord:
        """The chord over which it starts."""
        return self.stretches[0].chord


class BarFit(NamedTuple):
    """One bar: its notes and the share of its sounding time that is on chord tones."""

    bar: Bar
    notes: tuple[NoteFit, ...]  # that start in it
    share: Fraction | None  # 0 to 1; None where nothing sounds


@cache
def tone_verdict(pitch_class: int, chord: Chord, key: Key) -> Verdict:
    """The verdict on one tone over a chord of the key, by the rules above.

    `pitch_class` is in semitones above C, 0 to 11.
    """
    above_root = (pitch_class - key.pitch_class - chord.root) % 12
    above_key = (pitch_class - key.pitch_class) % 12
    if above_root in chord.tones:
        return Verdict.CHORD_TONE
    if above_root == 10 and chord.seventh is None and chord.root:
        return Verdict.COLOUR  # a minor seventh over a plain triad; over I it is a blue note
    major_over_minor = above_root == 4 and chord.minor_third
    blue = above_root == 6 or (above_root == 3 and not chord.minor_third)
    if (blue or above_key in MINOR_PENTATONIC) and not major_over_minor:
        return Verdict.BLUE_NOTE
    if above_root in (2, 9):
        return Verdict.COLOUR
    ninth_of_five = above_key == _MINOR_SIXTH and chord.root == _FIFTH and chord.third == 4
    if key.minor and ninth_of_five and (chord.dominant or chord.seventh is None):
        return Verdict.COLOUR  # the b9 of V is the sixth of the minor key
    if above_root == 5:
        return Verdict.PASSING
    if above_root == 11 and chord.seventh is None and not chord.minor_third:
        return Verdict.COLOUR  # a major seventh over a plain major triad
    return Verdict.CLASH


# The same notes come over the same chords again and again.


@lru_cache(4096)
def _worst(midi: tuple[int, ...], chord: Chord, key: Key) -> Verdict:
    """The worst verdict of the tones of a note."""
    return max(tone_verdict(each % 12, chord, key) for each in midi)


@lru_cache(4096)
def _degrees(midi: tuple[int, ...], root: int) -> tuple[str, ...]:
    """The degree of each tone of a note, low to high; `root` is a pitch class, 0 to 11."""
    return tuple(degree(each % 12, root) for each in midi)


def judge_fit(tune: Tune) -> list[BarFit]:
    """The fit of every bar of a tune, in order."""
    following = [*tune.notes[1:], None] if tune.notes else []
    fits = [_note_fit(tune, note, after) for note, after in zip(tune.notes, following, strict=True)]
    of_bar: dict[int, list[NoteFit]] = {}
    for fit in fits:
        of_bar.setdefault(fit.note.bar, []).append(fit)
    return [
        BarFit(bar, tuple(of_bar.get(index, ())), share)
        for index, (bar, share) in enumerate(zip(tune.bars, _shares(tune, fits), strict=True))
    ]


def _note_fit(tune: Tune, note: Note, after: Note | None) -> NoteFit:
    key, meter = tune.lesson.key, tune.lesson.facts.meter
    stretches = _stretches(tune.bars, note)
    chord = stretches[0].chord
    verdicts = [_worst(note.midi, stretch.chord, key) for stretch in stretches]
    root = (key.pitch_class + chord.root) % 12
    stays = meter.lasts_a_beat(note.duration)
    joined = after if after and after.start == note.end else None  # no rest between
    lands = meter.on_strong_beat(note.onset) or stays or joined is None
    left_by_step = joined is not None and _apart(note, joined) <= _WHOLE_STEP
    passes = verdicts[0] is Verdict.CLASH and not lands and left_by_step
    return NoteFit(
        note=note,
        stretches=stretches,
        degrees=_degrees(note.midi, root),
        verdict=Verdict.PASSING if passes else verdicts[0],
        held=tuple(verdicts[1:]),
        lands=lands,
        leans=(
            joined is not None
            and not stays
            and _apart(note, joined) == _HALF_STEP
            and _all_chord_tones(tune, joined)
        ),
    )


def _apart(first: Note, second: Note) -> int:
    """Semitones between two notes, by their nearest tones."""
    return min(abs(a - b) for a in first.midi for b in second.midi)


def _all_chord_tones(tune: Tune, note: Note) -> bool:
    chord = tune.bars[note.bar].chord_at(note.onset)
    return _worst(note.midi, chord, tune.lesson.key) is Verdict.CHORD_TONE


def _stretches(bars: Sequence[Bar], note: Note) -> tuple[Stretch, ...]:
    """The note divided wherever the chord changes under it."""
    only = bars[note.bar]
    if len(only.chords) == 1 and note.mark.value.length == note.duration:  # most notes
        return (Stretch(note.bar, note.onset, note.duration, only.chords[0][1]),)
    stretches: list[Stretch] = []
    start, end = note.start, note.end
    for index in range(note.bar, len(bars)):
        bar = bars[index]
        if bar.start >= end:
            break
        bar_end = bars[index + 1].start if index + 1 < len(bars) else end
        edges = [*(bar.start + at for at, _ in bar.chords[1:]), bar_end]
        for (at, chord), edge in zip(bar.chords, edges, strict=True):
            first, last = max(start, bar.start + at), min(end, edge)
            if first >= last:
                continue
            if stretches and stretches[-1].chord == chord:
                before = stretches.pop()
                last_length = before.length + last - first
                stretches.append(Stretch(before.bar, before.onset, last_length, chord))
            else:
                stretches.append(Stretch(index, first - bar.start, last - first, chord))
    return tuple(stretches)


def _shares(tune: Tune, fits: Sequence[NoteFit]) -> list[Fraction | None]:
    """For each bar, the share of the sounding time in it that is on chord tones."""
    struck = {fit.note.played.number: fit for fit in fits}
    shares: list[Fraction | None] = []
    sounding: NoteFit | None = None
    for bar in tune.bars:
        on_chord_tones: list[Fraction] = []
        others: list[Fraction] = []
        for played in bar.marks:
            if played.mark.kind is Kind.NOTE:
                sounding = struck[played.number]
            if not played.sounds or sounding is None:
                continue
            for length, chord in _over_chords(bar, played):
                verdict = _worst(sounding.note.midi, chord, tune.lesson.key)
                good = verdict is Verdict.CHORD_TONE
                (on_chord_tones if good else others).append(length)
        shares.append(_share(on_chord_tones, others))
    return shares


def _share(part: Sequence[Fraction], others: Sequence[Fraction]) -> Fraction | None:
    """The share of a part in the whole, 0 to 1; None where nothing sounds."""
    if not part:
        return Fraction(0) if others else None
    if not others:
        return Fraction(1)
    length = sum(part, Fraction(0))
    return length / sum(others, length)


def _over_chords(bar: Bar, played: PlayedMark) -> list[tuple[Fraction, Chord]]:
    """The lengths of a mark over each chord of its bar."""
    if len(bar.chords) == 1:
        return [(played.mark.value.length, bar.chords[0][1])]
    edges = [*(at for at, _ in bar.chords[1:]), played.end]
    parts = []
    for (at, chord), edge in zip(bar.chords, edges, strict=True):
        first, last = max(played.onset, at), min(played.end, edge)
        if first < last:
            parts.append((last - first, chord))
    return parts
