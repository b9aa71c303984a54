"""A take as a Standard MIDI File, format 1: tempo and meter, then a track for each voice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from formsheet.lesson.model import Lesson
from formsheet.sound.events import Event, Voice
from formsheet.sound.motion import cents, loudness, sounding, stretches
from formsheet.sound.shapes import PLAIN, shape_of
from formsheet.sound.takes import Take

if TYPE_CHECKING:
    from mido import MidiFile, MidiTrack

    from formsheet.sound.samples import Samples

TICKS = 480  # a quarter
_STEP = 0.01  # seconds between two settings of the pitch wheel or the expression
_WHEEL = 8191  # the wheel's way up; two half steps, as a new instrument has it (General MIDI 1)
_WHEEL_CENTS = 200.0
_EXPRESSION = 11  # controller (MIDI 1.0)
_FULL = 127
_MICROSECONDS = 60_000_000  # in a minute


@dataclass(frozen=True, slots=True)
class _Part:
    """A track: its voices, and how it sounds. Programs are counted from 0 (General MIDI 1)."""

    name: str
    voices: tuple[Voice, ...]
    channel: int  # from 0; 9 is the drums'
    program: int | None
    velocity: int  # of loudness 1


_PARTS = (
    _Part("Harmonica", ("guide",), 0, 22, 92),
    _Part("Bass", ("bass",), 1, 32, 80),
    _Part("Chords", ("chord",), 2, 4, 52),
    _Part("Drums", ("drum",), 9, None, 64),
    _Part("Count", ("click",), 9, None, 96),
)

#: Tick, rank within it, message: a note ends before the wheel goes back and the next begins.
_Timed = tuple[int, int, str, dict[str, object]]
_OFF, _BACK, _SET, _WORD, _ON = range(5)


def midi_bytes(taken: Take, lesson: Lesson, tempo: float, title: str) -> bytes:
    """The file; `tempo` in the meter's beats a minute."""
    from mido import MidiFile

    file = MidiFile(type=1, ticks_per_beat=TICKS, charset="utf-8")
    end = _ticks(taken.beats, lesson)
    _close(_conductor(file, lesson, tempo, title), end, 0)
    for part in _PARTS:
        events = [event for event in taken.events if event.voice in part.voices]
        if events:
            _write(file.add_track(part.name), part, events, lesson, tempo, end)
    data = BytesIO()
    file.save(file=data)
    return data.getvalue()


def _ticks(beats: float, lesson: Lesson) -> int:
    return round(beats * float(lesson.facts.meter.beat) * TICKS)


def _conductor(file: MidiFile, lesson: Lesson, tempo: float, title: str) -> MidiTrack:
    """The first track: title, rights, tempo, meter and key."""
    from mido import MetaMessage

    facts = lesson.facts
    track = file.add_track(title)
    if facts.rights:
        track.append(MetaMessage("copyright", text=facts.rights))
    micros = round(_MICROSECONDS / (tempo * float(facts.meter.beat)))
    track.append(MetaMessage("set_tempo", tempo=micros))
    above, below = map(int, facts.meter.text.split("/"))
    # How many MIDI clocks a click of the metronome takes; 24 a quarter.
    clocks = int(24 * facts.meter.beat)
    track.append(
        MetaMessage("time_signature", numerator=above, denominator=below, clocks_per_click=clocks)
    )
    mode = "m" if lesson.key.minor else ""
    track.append(MetaMessage("key_signature", key=f"{lesson.key.tonic}{mode}"))
    return track


def _write(
    track: MidiTrack,
    part: _Part,
    events: Sequence[Event],
    lesson: Lesson,
    tempo: float,
    end: int,
) -> None:
    from mido import Message, MetaMessage

    if part.program is not None:
        track.append(Message("program_change", channel=part.channel, program=part.program))
    timed = [each for event in events for each in _messages(event, part, lesson, tempo)]
    now = 0
    for tick, _, kind, fields in sorted(timed, key=lambda each: each[:2]):
        at, now = max(0, tick - now), max(now, tick)
        if kind == "lyrics":
            track.append(MetaMessage(kind, time=at, **fields))
        else:
            track.append(Message(kind, time=at, channel=part.channel, **fields))
    _close(track, end, now)


def _close(track: MidiTrack, end: int, now: int) -> None:
    from mido import MetaMessage

    track.append(MetaMessage("end_of_track", time=max(0, end - now)))


def _messages(event: Event, part: _Part, lesson: Lesson, tempo: float) -> Iterator[_Timed]:
    """A note, with its word and with what its technique does to it."""
    import numpy as np

    seconds_a_beat = 60 / tempo
    shape = shape_of(event.technique)
    if event.syllable:
        yield _ticks(event.start, lesson), _WORD, "lyrics", {"text": event.syllable}
    loudest = 1.0
    if shape is not PLAIN:
        at = np.arange(0.0, sounding(event, seconds_a_beat), _STEP)
        loud = loudness(shape, at, sounding(event, seconds_a_beat))
        loudest = float(loud.max())
        yield from _settings(event, at, loud / loudest, lesson, tempo)
    velocity = min(_FULL, max(1, round(part.velocity * event.loudness * loudest)))
    for each in stretches(event, seconds_a_beat):
        start = _ticks(event.start + each.start / seconds_a_beat, lesson)
        end = _ticks(event.start + (each.start + each.length) / seconds_a_beat, lesson)
        for note in each.midi:
            yield start, _ON, "note_on", {"note": note, "velocity": velocity}
            yield max(end, start + 1), _OFF, "note_off", {"note": note, "velocity": 0}


def _settings(
    event: Event, at: Samples, loud: Samples, lesson: Lesson, tempo: float
) -> Iterator[_Timed]:
    """The wheel and the expression through a note, and both back at its end."""
    length = sounding(event, 60 / tempo)
    bent = cents(shape_of(event.technique), at, length) * (_WHEEL / _WHEEL_CENTS)
    wheel, expression = 0, _FULL
    for moment, pitch, value in zip(at, bent.round(), (_FULL * loud).round(), strict=True):
        tick = _ticks(event.start + moment * tempo / 60, lesson)
        if pitch != wheel:
            wheel = int(pitch)
            yield tick, _SET, "pitchwheel", {"pitch": wheel}
        if value != expression:
            expression = int(value)
            yield tick, _SET, "control_change", {"control": _EXPRESSION, "value": expression}
    after = _ticks(event.start + length * tempo / 60, lesson)
    if wheel:
        yield after, _BACK, "pitchwheel", {"pitch": 0}
    if expression != _FULL:
        yield after, _BACK, "control_change", {"control": _EXPRESSION, "value": _FULL}
