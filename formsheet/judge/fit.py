"""Fit: every note against the chord that sounds under it, and what is worth saying of it.

The verdict on a note over a chord is in `verdicts.py`. When it is reported is our own choice:

- A note stays if it sounds a beat or more over the chord, or if a rest of a beat or more follows.
  Only a note that stays is reported.
- An avoid note passes, and is not reported, if it lasts a beat at most and is part of a line
  (reached and left by a half or whole step in one direction), or if it resolves: it is left
  without a rest, by a half or whole step, to a tone of the chord then sounding.
- If it resolves after more than one beat, two at most, it is a suspension: a remark.
- The key note over V is a remark. Every other avoid note that stays is a warning.
- A b5 that stays, is not a chord tone and is not left by a half or whole step is a remark.
- A note struck no more than a beat before a change of chord, off the beat or held over the
  change, and belonging to the next chord, is judged over the next (common practice, no source).
"""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from collections.abc import Iterator, Sequence
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from formsheet.judge.verdicts import BLUES_SIGNS, Verdict, blues_triad, tone_verdict, verdict_on
from formsheet.lesson.model import Kind, Lesson
from formsheet.music.chord import Chord
from formsheet.music.key import Key
from formsheet.music.rhythm import Meter
from formsheet.tune.timeline import Bar, Note, Tune

_WHOLE_STEP = 2  # semitones: the widest step, as against a leap
_FLAT_FIVE = 6  # semitones above the root
_FIFTH = 7  # root of V, in semitones above the key note
#: Beats that a suspension may last: longer, and the ear takes it for a wrong note.
LONGEST_SUSPENSION = 2


class Heard(Enum):
    """How a note is heard over a chord."""

    FITS = "fits"  # a chord tone, idiomatic or colour
    SHORT = "short"  # an avoid note that does not stay
    PASSES = "passes"  # an avoid note in a line, or one that resolves
    SUSPENDED = "suspension"  # an avoid note of more than a beat that resolves
    FLAT_FIVE = "flat five"  # a b5 that stays and is not left by step
    KEY_NOTE = "key note"  # over V
    CLASHES = "clashes"  # any other avoid note that stays


class Stretch(NamedTuple):
    """The part of a note that sounds over one chord."""

    bar: int  # index
    onset: Fraction  # in quarters from the bar line
    length: Fraction  # in quarters
    chord: Chord


class NoteFit(NamedTuple):
    """The fit of a note over the chord that it belongs to, and over those it is held into.

    `stretches`, `verdicts`, `heard` and `names` have one entry for each of these chords.
    """

    note: Note
    stretches: tuple[Stretch, ...]
    verdicts: tuple[Verdict, ...]
    heard: tuple[Heard, ...]
    names: tuple[tuple[str, ...], ...]  # over each chord the degree of each tone, low to high
    stays: bool  # sounds a beat or more, or a rest of a beat or more follows

    @property
    def chord(self) -> Chord:
        """The chord that it belongs to: the next one if it is pushed ahead."""
        return self.stretches[0].chord

    @property
    def verdict(self) -> Verdict:
        """The verdict over that chord."""
        return self.verdicts[0]

    @property
    def degrees(self) -> tuple[str, ...]:
        """The degree of each tone over that chord, low to high."""
        return self.names[0]


class BarFit(NamedTuple):
    """One bar: its notes and how well they fit."""

    bar: Bar
    notes: tuple[NoteFit, ...]  # that start in it
    score: Fraction | None  # 0 to 1, weighed by time; None where nothing sounds


#: What a verdict counts in the score of a bar, in halves.
WEIGHTS = {
    Verdict.CHORD_TONE: 2,
    Verdict.IDIOMATIC: 2,
    Verdict.COLOUR: 1,
    Verdict.AVOID: 0,
}
#: Avoid notes that count as much as colour.
RESOLVED = frozenset({Heard.PASSES, Heard.SUSPENDED})


def has_blue_notes(lesson: Lesson) -> bool:
    """Whether the licks of a lesson sound blue notes of the key over plain triads of a blues.

    False without a look at the licks where the form has no such triad: it matters there alone.
    """
    key = lesson.key
    if not any(blues_triad(chord, key) for chord in lesson.form.chords):
        return False
    harp = lesson.facts.harp
    return any(
        (midi - key.pitch_class) % 12 in BLUES_SIGNS
        for lick in lesson.licks.values()
        for bar in (lick.pickup, *lick.bars)
        for mark in bar
        if mark.tab is not None
        for midi in harp.pitches(mark.tab)
    )


def judge_fit(tune: Tune, blue: bool | None = None) -> list[BarFit]:
    """The fit of every bar of a tune, in order.

    `blue`: whether its lesson `has_blue_notes`, where that is known.
    """
    judge = Judge(tune, blue=blue)
    fits = [judge.note(index) for index in range(len(tune.notes))]
    of_bar: dict[int, list[NoteFit]] = {}
    for fit in fits:
        of_bar.setdefault(fit.note.bar, []).append(fit)
    return [
        BarFit(bar, tuple(of_bar.get(index, ())), score)
        for index, (bar, score) in enumerate(zip(tune.bars, _scores(tune, fits), strict=True))
    ]


class Judge:
    """Judges single notes of a tune. `notes` may differ from those of the tune, to try a change."""

    def __init__(self, tune: Tune, notes: Sequence[Note] | None = None, blue: bool | None = None):
        self.notes = tune.notes if notes is None else notes
        self.bars = tune.bars
        self.key: Key = tune.lesson.key
        self.meter: Meter = tune.lesson.facts.meter
        self.blue = has_blue_notes(tune.lesson) if blue is None else blue

    def verdict(self, midi: tuple[int, ...], chord: Chord) -> Verdict:
        """The worst verdict of the tones of a note."""
        return verdict_on(midi, chord, self.key, self.blue)

    def note(self, index: int) -> NoteFit:
        """The fit of a note, by its index."""
        note = self.notes[index]
        after = self.notes[index + 1] if index + 1 < len(self.notes) else None
        stretches = self._belonging(note)
        verdicts = tuple(self.verdict(note.midi, each.chord) for each in stretches)
        rest = after is None or (
            after.start != note.end and self.meter.lasts_a_beat(after.start - note.end)
        )
        return NoteFit(
            note=note,
            stretches=stretches,
            verdicts=verdicts,
            heard=tuple(
                self._heard(index, at, verdicts[at], stretches, rest)
                for at in range(len(stretches))
            ),
            names=tuple(_degrees(note.midi, each.chord, self.key) for each in stretches),
            stays=rest or self.meter.lasts_a_beat(note.duration),
        )

    def _belonging(self, note: Note) -> tuple[Stretch, ...]:
        """The stretches of a note; those of a note pushed ahead begin with the next chord."""
        stretches = _stretches(self.bars, note)
        first = stretches[0]
        if not self.verdict(note.midi, first.chord):
            return stretches
        change = _next_change(self.bars, first)
        if change is None or change[0] - note.start > self.meter.beat:
            return stretches
        held = note.end > change[0]
        if not (held or note.onset % self.meter.beat):
            return stretches
        if self.verdict(note.midi, change[1]) > Verdict.IDIOMATIC:
            return stretches
        length = first.length + (stretches[1].length if held else 0)
        return (Stretch(first.bar, first.onset, length, change[1]), *stretches[2 if held else 1 :])

    def _heard(
        self, index: int, at: int, verdict: Verdict, stretches: Sequence[Stretch], rest: bool
    ) -> Heard:
        if verdict is Verdict.CHORD_TONE:
            return Heard.FITS
        stretch, last = stretches[at], at + 1 == len(stretches)
        stays = (last and rest) or self.meter.lasts_a_beat(stretch.length)
        note = self.notes[index]
        if verdict is not Verdict.AVOID:
            fives = [m for m in note.midi if self.key.above_root(m, stretch.chord) == _FLAT_FIVE]
            left = not (fives and stays) or self._left(index, fives)
            return Heard.FITS if left else Heard.FLAT_FIVE
        bad = [
            midi
            for midi in note.midi
            if tone_verdict(midi % 12, stretch.chord, self.key, self.blue) is Verdict.AVOID
        ]
        beats = stretch.length / self.meter.beat
        resolves = last and beats <= LONGEST_SUSPENSION and self._resolves(index, bad)
        if (resolves and beats <= 1) or (
            note.duration <= self.meter.beat and self._in_line(index, bad)
        ):
            return Heard.PASSES
        if not stays:
            return Heard.SHORT
        if resolves:
            return Heard.SUSPENDED
        tonic = self.key.pitch_class
        if stretch.chord.root == _FIFTH and all(midi % 12 == tonic for midi in note.midi):
            return Heard.KEY_NOTE
        return Heard.CLASHES

    def _joined(self, index: int) -> Note | None:
        """The note that follows without a rest."""
        if index + 1 == len(self.notes):
            return None
        note, after = self.notes[index], self.notes[index + 1]
        return after if after.start == note.end else None

    def _left(self, index: int, tones: Sequence[int]) -> bool:
        """Whether one of these tones of a note moves by a half or whole step, without a rest."""
        after = self._joined(index)
        return after is not None and any(_steps(midi, after) for midi in tones)

    def _resolves(self, index: int, bad: Sequence[int]) -> bool:
        """Whether all tones to be avoided move by step, to a note or chord of chord tones."""
        after = self._joined(index)
        if after is None or not all(_steps(midi, after) for midi in bad):
            return False
        return not self.verdict(after.midi, self._belonging(after)[0].chord)

    def _in_line(self, index: int, bad: Sequence[int]) -> bool:
        """Whether all tones to be avoided are reached and left by step in one direction."""
        after = self._joined(index)
        if after is None or not index or self._joined(index - 1) is None:
            return False
        before = self.notes[index - 1]
        return all(any(-way in _steps(midi, before) for way in _steps(midi, after)) for midi in bad)


def _steps(midi: int, other: Note) -> tuple[int, ...]:
    """Ways, 1 up and -1 down, in which a tone of another note is a half or whole step away."""
    found = []
    for each in other.midi:
        apart = each - midi
        if apart and -_WHOLE_STEP <= apart <= _WHOLE_STEP:
            found.append(1 if apart > 0 else -1)
    return tuple(found)


@lru_cache(4096)  # the same notes come over the same chords again and again
def _degrees(midi: tuple[int, ...], chord: Chord, key: Key) -> tuple[str, ...]:
    """The degree of each tone of a note, low to high."""
    return tuple(key.degree(each, chord) for each in midi)


def _next_change(bars: Sequence[Bar], stretch: Stretch) -> tuple[Fraction, Chord] | None:
    """The next change of chord after a stretch begins, in its bar or at the next bar line."""
    bar = bars[stretch.bar]
    for at, chord in bar.chords[1:]:
        if at > stretch.onset and chord != stretch.chord:
            return bar.start + at, chord
    if stretch.bar + 1 == len(bars):
        return None
    after = bars[stretch.bar + 1]
    chord = after.chords[0][1]
    return (after.start, chord) if chord != stretch.chord else None


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


def _scores(tune: Tune, fits: Sequence[NoteFit]) -> list[Fraction | None]:
    """For each bar, how well the notes that sound in it fit, weighed by time."""
    struck = {fit.note.played.number: fit for fit in fits}
    scores: list[Fraction | None] = []
    sounding: NoteFit | None = None
    for bar in tune.bars:
        lengths: tuple[list[Fraction], ...] = ([], [], [])  # by weight
        for played in bar.marks:
            if played.mark.kind is Kind.NOTE:
                sounding = struck[played.number]
            if not played.sounds or sounding is None:
                continue
            if len(sounding.heard) == 1:  # most notes
                lengths[_weight(sounding, 0)].append(played.mark.value.length)
                continue
            first = bar.start + played.onset
            for at, length in _parts(tune.bars, sounding, first, bar.start + played.end):
                lengths[_weight(sounding, at)].append(length)
        scores.append(_score(*lengths))
    return scores


def _weight(fit: NoteFit, at: int) -> int:
    """Twice what a stretch of a note counts in the score."""
    return WEIGHTS[fit.verdicts[at]] or (fit.heard[at] in RESOLVED)


def _parts(
    bars: Sequence[Bar], fit: NoteFit, first: Fraction, last: Fraction
) -> Iterator[tuple[int, Fraction]]:
    """The stretches of a note within a time, by index, each with its length there."""
    for at, stretch in enumerate(fit.stretches):
        start = bars[stretch.bar].start + stretch.onset
        length = min(last, start + stretch.length) - max(first, start)
        if length > 0:
            yield at, length


def _score(
    none: Sequence[Fraction], half: Sequence[Fraction], whole: Sequence[Fraction]
) -> Fraction | None:
    """The mean of the weights by time; None where nothing sounds."""
    if not (none or half):
        return Fraction(1) if whole else None
    good, fair = sum(whole, Fraction(0)), sum(half, Fraction(0))
    return (good + fair / 2) / (good + fair + sum(none, Fraction(0)))
