"""The rules of fit read a second time: what is to be said of the notes of a tune.

Written from the rules in words (they stand in `formsheet/judge/fit.py`, `verdicts.py` and
`ending.py`), as plainly as possible, with nothing of `formsheet.judge`. Of a tune it takes what was
written and when it sounds: pitches, times, chords. Sources of the rules: `test_verdicts.py`,
`test_fit.py` and `test_ending.py`, beside each.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.music.chord import Chord
from formsheet.tune.timeline import Chorus, Note, Tune

WARNING, SUSPENSION, FLAT_FIVE, KEY_NOTE = "warning", "suspension", "flat five", "key note"

_TONE, _IDIOMATIC, _COLOUR, _AVOID = range(4)

# The tones of the chords, in semitones above the root. Common practice, no source.
_MAJOR = {
    "": "0 4 7", "6": "0 4 7 9", "7": "0 4 7 10", "9": "0 2 4 7 10", "13": "0 4 7 9 10",
    "maj7": "0 4 7 11", "7#9": "0 3 4 7 10", "7b9": "0 1 4 7 10", "+7": "0 4 8 10",
    "7sus4": "0 5 7 10", "dim7": "0 3 6 9",
}  # fmt: skip
_MINOR = {"": "0 3 7", "6": "0 3 7 9", "7": "0 3 7 10", "9": "0 2 3 7 10", "7b5": "0 3 6 10",
          "dim7": "0 3 6 9"}  # fmt: skip


class Said(NamedTuple):
    """A note over one chord, and what is to be said of it."""

    what: str  # "": nothing
    avoid: bool  # whether it is an avoid note
    note: Note
    start: Fraction  # of its part over the chord, in quarters from the first bar line
    end: Fraction
    chord: Chord
    held: bool  # into this chord
    degree: int  # of its worst tone, in semitones above the root


class _Part(NamedTuple):
    """The part of a note that belongs to a chord; times in quarters from the first bar line."""

    start: Fraction
    end: Fraction
    chord: Chord


def all_heard(tune: Tune) -> list[Said]:
    """All notes of a tune in order, once over each chord; `!` is not looked at."""
    return list(_Reading(tune).all())


def all_said(tune: Tune) -> list[Said]:
    """The notes of a tune of which something is to be said; not those that end a chorus badly."""
    ends = [*ends_off_five(tune), *end_away(tune)]
    return [each for each in all_heard(tune) if each.what and each not in ends]


def ends_off_five(tune: Tune) -> list[Said]:
    """The last note over V of each chorus that ends on V, if it is no tone of V."""
    found = []
    length = tune.lesson.facts.meter.bar
    for chorus in _choruses(tune):
        bar = tune.bars[chorus.bars[-1]]
        five = bar.chords[-1][1]
        begin = bar.start + min(at for at, chord in bar.chords if chord == five)
        there = [
            each
            for each in all_heard(tune)
            if each.chord == five and each.end > begin and each.start < bar.start + length
            and not each.note.played.pickup
        ]  # fmt: skip
        if five.root != 7 or not there or _needs_no_word(there[-1]):
            continue
        last = there[-1]
        reading, tones = _Reading(tune), _tones(five) | {10}
        of_five = _above_root(tune, last) & tones
        blue = reading.worst(last.note, five) <= _IDIOMATIC
        if not of_five or not (of_five == _above_root(tune, last) or blue):
            found.append(last)
    return found


def end_away(tune: Tune) -> list[Said]:
    """The last note of a tune that ends on I, if it is not at home."""
    heard = all_heard(tune)
    if not _choruses(tune) or not heard or tune.bars[-1].chords[-1][1].root != 0:
        return []
    last = heard[-1]
    on_one = all(chord.root == 0 for _, end, chord in _chords(tune) if end > last.start)
    home = (_tones(last.chord) - {10, 11}) | {3}
    if not on_one or _needs_no_word(last) or home & _above_root(tune, last):
        return []
    return [last]


def ends_elsewhere(tune: Tune) -> bool:
    """Whether the last chord is not I, in a tune of several choruses or with a last time."""
    play = tune.lesson.plays[-1]
    last_time = play.last_ending or [line for line in play.bars if line.last_time]
    if not _choruses(tune) or not tune.notes or tune.bars[-1].chords[-1][1].root == 0:
        return False
    return bool(last_time) or len(tune.choruses) > 1


def _choruses(tune: Tune) -> Sequence[Chorus]:
    """The choruses; none where the form is shorter than four bars."""
    return [chorus for chorus in tune.choruses if len(chorus.bars) >= 4]


def _needs_no_word(last: Said) -> bool:
    """Whether a note at an end is marked as meant, or is warned of already."""
    return last.note.mark.deliberate or last.what == WARNING


def _above_root(tune: Tune, said: Said) -> set[int]:
    tonic = tune.lesson.key.pitch_class
    return {(midi - tonic - said.chord.root) % 12 for midi in said.note.midi}


def _tones(chord: Chord) -> set[int]:
    return {int(each) for each in (_MINOR if chord.minor else _MAJOR)[chord.quality].split()}


def staying(tune: Tune) -> list[Note]:
    """The notes that sound a beat or more, or have a rest of a beat or more after them."""
    reading = _Reading(tune)
    return [n for at, n in enumerate(tune.notes) if reading.beats(n) >= 1 or reading.rest(at) >= 1]


class _Reading:
    def __init__(self, tune: Tune) -> None:
        self.notes = tune.notes
        self.beat = tune.lesson.facts.meter.beat
        self.tonic = tune.lesson.key.pitch_class
        self.minor = tune.lesson.key.minor
        self.chords = _chords(tune)
        self.bar_lines = [bar.start for bar in tune.bars]
        self.blue = _is_blue(tune)

    def all(self) -> Iterator[Said]:
        for at, note in enumerate(self.notes):
            parts = self.parts(note)
            for number, part in enumerate(parts):
                last = number + 1 == len(parts)
                worst = self.worst_tone(note, part.chord)
                yield Said(
                    what=self.said(at, part, last),
                    avoid=self.verdict(worst, part.chord) == _AVOID,
                    note=note,
                    start=part.start,
                    end=part.end,
                    chord=part.chord,
                    held=number > 0,
                    degree=(worst - self.tonic - part.chord.root) % 12,
                )

    # ---- Time ----------------------------------------------------------------------------

    def beats(self, note: Note) -> Fraction:
        return note.duration / self.beat

    def rest(self, at: int) -> Fraction:
        """Beats of rest after a note; after the last one there is nothing but rest."""
        if at + 1 == len(self.notes):
            return Fraction(1000)
        return (self.notes[at + 1].start - self.notes[at].end) / self.beat

    def parts(self, note: Note) -> list[_Part]:
        """A note over each chord under it; one pushed ahead begins with the next chord."""
        parts = [
            _Part(max(note.start, start), min(note.end, end), chord)
            for start, end, chord in self.chords
            if start < note.end and end > note.start
        ]
        (change,) = [
            at for at, (start, end, _) in enumerate(self.chords) if start <= note.start < end
        ]
        if change + 1 < len(self.chords):
            _, moment, own = self.chords[change]
            following = self.chords[change + 1].chord
            near = moment - note.start <= self.beat
            line = max(each for each in self.bar_lines if each <= note.start)
            off_the_beat = (note.start - line) % self.beat != 0
            held = note.end > moment
            belongs = self.worst(note, following) <= _IDIOMATIC and self.worst(note, own) > _TONE
            if near and (off_the_beat or held) and belongs:
                whole = parts[1].end if held else note.end
                return [_Part(note.start, whole, following), *parts[2 if held else 1 :]]
        return parts

    # ---- What is said ----------------------------------------------------------------------

    def said(self, at: int, part: _Part, last: bool) -> str:
        note = self.notes[at]
        length = (part.end - part.start) / self.beat
        if not (length >= 1 or (last and self.rest(at) >= 1)):
            return ""
        verdict = self.worst(note, part.chord)
        root = self.tonic + part.chord.root
        if verdict == _TONE:
            return ""
        if verdict != _AVOID:
            five = [midi for midi in note.midi if (midi - root) % 12 == 6]
            return FLAT_FIVE if five and not any(self.ways_on(at, midi) for midi in five) else ""
        bad = [midi for midi in note.midi if self.verdict(midi, part.chord) == _AVOID]
        if self.beats(note) <= 1 and all(self.in_line(at, midi) for midi in bad):
            return ""
        if last and all(self.ways_on(at, midi) for midi in bad) and self.to_a_chord_tone(at):
            if length <= 1:
                return ""
            if length <= 2:
                return SUSPENSION
        on_five = part.chord.root == 7
        if on_five and {midi % 12 for midi in note.midi} == {self.tonic}:
            return KEY_NOTE
        return WARNING

    def ways_on(self, at: int, midi: int) -> set[int]:
        """Directions in which the next note is a half or whole step away, without a rest."""
        return self.ways(midi, self.notes[at + 1]) if self.rest(at) == 0 else set()

    def ways(self, midi: int, other: Note) -> set[int]:
        return {
            1 if each > midi else -1 for each in other.midi if each != midi and abs(each - midi) < 3
        }

    def in_line(self, at: int, midi: int) -> bool:
        if at == 0 or self.rest(at - 1) != 0:
            return False
        came_from = self.ways(midi, self.notes[at - 1])
        return any(-way in came_from for way in self.ways_on(at, midi))

    def to_a_chord_tone(self, at: int) -> bool:
        after = self.notes[at + 1]
        return self.worst(after, self.parts(after)[0].chord) == _TONE

    # ---- Verdicts --------------------------------------------------------------------------

    def worst_tone(self, note: Note, chord: Chord) -> int:
        return max(note.midi, key=lambda midi: self.verdict(midi, chord))

    def worst(self, note: Note, chord: Chord) -> int:
        return self.verdict(self.worst_tone(note, chord), chord)

    def verdict(self, midi: int, chord: Chord) -> int:
        tones = _tones(chord)
        up = (midi - self.tonic - chord.root) % 12
        small_third = 3 in tones and 4 not in tones
        five_of_minor = self.minor and chord.root == 7 and 4 in tones
        if up in tones:
            return _TONE
        if chord.root == 0 and up in (3, 6, 10):
            return _IDIOMATIC
        if up == 3 and {4, 10} <= tones:
            return _IDIOMATIC
        if up in (2, 9) or (five_of_minor and up in (1, 8)):
            return _COLOUR
        if (up == 5 and small_third) or (up == 10 and len(tones) == 3):
            return _COLOUR
        if up - 1 in tones or (up == 4 and small_third):
            return _AVOID
        if up == 11 and (10 in tones or small_third):
            return _AVOID
        plain = tones == {0, 4, 7} and chord.root in (0, 5, 7) and not self.minor
        if up == 11 and plain and self.blue:
            return _AVOID
        return _COLOUR


class _Sounding(NamedTuple):
    start: Fraction
    end: Fraction
    chord: Chord


def _chords(tune: Tune) -> list[_Sounding]:
    """Every chord of the tune from change to change."""
    found: list[_Sounding] = []
    for bar in tune.bars:
        ends = [at for at, _ in bar.chords[1:]] + [tune.lesson.facts.meter.bar]
        for (at, chord), end in zip(bar.chords, ends, strict=True):
            if found and found[-1].chord.numeral == chord.numeral:
                found[-1] = found[-1]._replace(end=bar.start + end)
            else:
                found.append(_Sounding(bar.start + at, bar.start + end, chord))
    return found


def _is_blue(tune: Tune) -> bool:
    """Whether a lick of the lesson has a b3 or a b7 of the key, which make it a blues."""
    harp, tonic = tune.lesson.facts.harp, tune.lesson.key.pitch_class
    tabs = [
        mark.tab
        for lick in tune.lesson.licks.values()
        for bar in (lick.pickup, *lick.bars)
        for mark in bar
        if mark.tab
    ]
    return any((midi - tonic) % 12 in (3, 10) for tab in tabs for midi in harp.pitches(tab))


def moved_to(tune: Tune, note: Note, by: int) -> Sequence[str]:
    """Tab of the pitch `by` half steps from a single note: natural first, then bends."""
    (midi,) = note.midi
    found = [tab for tab, other in tune.lesson.facts.harp.single_notes() if other == midi + by]
    return [str(tab) for tab in sorted(found, key=lambda tab: (tab.bend, tab.holes))]
