"""The band: bass, drums and light chords that follow the form, its meter, feel and ending."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from formsheet.music.chord import Chord
from formsheet.music.form import ChordPlaces, chord_at
from formsheet.music.key import Key
from formsheet.music.rhythm import Meter
from formsheet.music.swing import STRAIGHT, Feel
from formsheet.sound.bass import root_of, shared_bar, walked_bar
from formsheet.sound.events import Event
from formsheet.sound.grooves import CRASH, KICK, LOUDNESS, Groove, groove_for, hits
from formsheet.tune.timeline import Bar, Tune

DRUM_LENGTH = 0.25  # beats; only for MIDI, a drum's sound has its own length
_PLUCK = 0.95  # length of a bass note, as a share of the time to the next one
_BASS_OFF_BEAT = 0.75  # loudness of bass notes between the beats
_LOWEST_CHORD_TONE = 53  # MIDI; a chord's tones lie within the octave above this F
_OCTAVE = 12


def backing_events(tune: Tune) -> tuple[Event, ...]:
    """The band's events over the whole tune, from the first bar line, in order of time.

    The band starts on the first bar line: a pick-up bar has only the count. If the form ends on
    I, the last chord of the tune is one held hit.
    """
    played = [(index, bar) for index, bar in enumerate(tune.bars) if bar.number]
    band = _Band(tune, played[0][0])
    following = [bar.chords[0][1] for _, bar in played[1:]]
    events = [
        event
        for number, (index, bar) in enumerate(played)
        for event in band.bar(index, bar, following[number] if number < len(following) else None)
    ]
    return tuple(sorted(events, key=lambda event: (event.start, event.voice, event.midi)))


class _Band:
    """The accompaniment of a tune, bar by bar."""

    def __init__(self, tune: Tune, first: int) -> None:
        facts = tune.lesson.facts
        self._meter: Meter = facts.meter
        self._feel: Feel = STRAIGHT if facts.meter.compound else facts.feel
        self._groove: Groove = groove_for(facts.meter, self._feel)
        self._key: Key = tune.lesson.key
        self._since = _bars_on_chord(tune.bars)
        self._first, self._last = first, len(tune.bars) - 1
        self._chorus_ends = {chorus.bars[-1] for chorus in tune.choruses}

    def bar(self, index: int, bar: Bar, following: Chord | None) -> Iterator[Event]:
        """Everything that the band plays in one bar; `following` is the chord of the next one."""
        chords = tuple((start / self._meter.beat, chord) for start, chord in bar.chords)
        final = _final_hit(chords) if index == self._last else None
        end = final if final is not None else Fraction(self._meter.beats)
        played = tuple((start, chord) for start, chord in chords if start < end)
        if played:
            yield from self._bass(index, bar, played, end, following)
            yield from self._drums(index, bar, end)
            yield from self._chords(index, bar, played, end)
        if final is not None:
            yield from self._hit(index, bar, final, chords[-1][1])

    def _at(self, bar: Bar, place: Fraction) -> float:
        """Beats from the first bar line to a place in a bar (in quarters), swing included."""
        beat = int(place)
        in_bar = beat + self._feel.place(place - beat)
        return float(bar.start / self._meter.beat + in_bar)

    def _bass(
        self, index: int, bar: Bar, chords: ChordPlaces, end: Fraction, following: Chord | None
    ) -> Iterator[Event]:
        tonic, groove = self._key.pitch_class, self._groove
        if len(bar.chords) > 1:
            plucked = [*shared_bar(chords, end, tonic, groove)]
        else:
            plucked = [*walked_bar(chords[0][1], self._since[index], following, tonic, groove)]
        ends = [*(place for place, _ in plucked[1:]), end]
        for (place, midi), until in zip(plucked, ends, strict=True):
            start = self._at(bar, place)
            length = (self._at(bar, until) - start) * _PLUCK
            loudness = 1.0 if place.denominator == 1 else _BASS_OFF_BEAT
            yield Event("bass", start, length, (midi,), loudness, bar=index)

    def _drums(self, index: int, bar: Bar, end: Fraction) -> Iterator[Event]:
        fills = index in self._chorus_ends and index != self._last
        for drum, pattern in self._groove.fill if fills else self._groove.drums:
            for place, sign in hits(pattern):
                if place < end:
                    yield self._drum(index, bar, place, drum, LOUDNESS[sign])
        if index != self._first and index - 1 in self._chorus_ends:
            yield self._drum(index, bar, Fraction(0), CRASH, LOUDNESS["x"])

    def _drum(self, index: int, bar: Bar, place: Fraction, drum: int, loudness: float) -> Event:
        start = self._at(bar, place)
        return Event("drum", start, DRUM_LENGTH, (drum,), loudness, bar=index)

    def _chords(self, index: int, bar: Bar, chords: ChordPlaces, end: Fraction) -> Iterator[Event]:
        for place, sign in hits(self._groove.chords):
            if place >= end:
                continue
            chord = chord_at(chords, place)
            start = self._at(bar, place)
            tones = voiced(chord, self._key.pitch_class)
            yield Event("chord", start, self._groove.chord_length, tones, LOUDNESS[sign], bar=index)

    def _hit(self, index: int, bar: Bar, place: Fraction, chord: Chord) -> Iterator[Event]:
        """The last chord, held to the end of the bar."""
        tonic = self._key.pitch_class
        start = self._at(bar, place)
        length = self._at(bar, Fraction(self._meter.beats)) - start
        yield Event("bass", start, length, (root_of(chord, tonic),), bar=index)
        yield Event("chord", start, length, voiced(chord, tonic), bar=index)
        for drum in (KICK, CRASH):
            yield self._drum(index, bar, place, drum, LOUDNESS["X"])


def _final_hit(chords: ChordPlaces) -> Fraction | None:
    """The place of the final hit in the last bar: of its last chord, if that is I; else None."""
    place, chord = chords[-1]
    return place if chord.root == 0 else None


def _bars_on_chord(bars: Sequence[Bar]) -> list[int]:
    """For each bar, the number of bars directly before it in its chorus with the same chord."""
    since = [0] * len(bars)
    for index, (before, bar) in enumerate(pairwise(bars), start=1):
        goes_on = before.chorus == bar.chorus and before.chords[-1][1] == bar.chords[0][1]
        since[index] = since[index - 1] + 1 if goes_on and len(before.chords) == 1 else 0
    return since


def voiced(chord: Chord, tonic: int) -> tuple[int, ...]:
    """MIDI numbers of three tones of a chord in one octave, low to high; the bass has the root.

    Third, fifth and seventh or sixth; for a triad the root is the third of them. `tonic` is the
    pitch class of the key.
    """
    tones = (chord.third, chord.fifth, chord.seventh or 0)
    classes = {(tonic + chord.root + tone) % _OCTAVE for tone in tones}
    lowest = _LOWEST_CHORD_TONE
    return tuple(sorted(lowest + (each - lowest) % _OCTAVE for each in classes))
