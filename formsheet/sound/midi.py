"""A take as a Standard MIDI File, format 1: tempo and meter, then a track for each voice."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from formsheet.lesson.model import Lesson
from formsheet.sound.events import Voice
from formsheet.sound.midi_notes import TICKS, Clock, Timed, messages
from formsheet.sound.takes import Take

if TYPE_CHECKING:
    from mido import MidiTrack

_MICROSECONDS = 60_000_000  # in a minute
_CLOCKS = 24  # MIDI clocks in a quarter (MIDI 1.0)


@dataclass(frozen=True, slots=True)
class _Part:
    """A track: its voice and its instrument. Numbers start at 0 (players count from 1)."""

    name: str
    voice: Voice
    channel: int  # 9 is the drums' (General MIDI 1)
    program: int | None  # General MIDI 1
    velocity: int  # for loudness 1


_PARTS = (
    _Part("Harmonica", "guide", 0, 22, 92),
    _Part("Bass", "bass", 1, 32, 80),
    _Part("Chords", "chord", 2, 4, 52),
    _Part("Drums", "drum", 9, None, 64),
    _Part("Count", "click", 9, None, 96),
)


def midi_bytes(taken: Take, lesson: Lesson, tempo: float, title: str) -> bytes:
    """The content of the file; `tempo` is in beats of the meter a minute."""
    from mido import MidiFile

    clock = Clock(float(lesson.facts.meter.beat), tempo)
    end = clock.ticks(taken.beats)
    file = MidiFile(type=1, ticks_per_beat=TICKS, charset="utf-8")
    first = file.add_track(title)
    _facts(first, lesson, tempo)
    _close(first, end)
    for part in _PARTS:
        events = [event for event in taken.events if event.voice == part.voice]
        if events:
            track = file.add_track(part.name)
            sent = (each for event in events for each in messages(event, part.velocity, clock))
            _play(track, part, sent)
            _close(track, end)
    data = BytesIO()
    file.save(file=data)
    return data.getvalue()


def _facts(track: MidiTrack, lesson: Lesson, tempo: float) -> None:
    """Write copyright, tempo, meter and key."""
    from mido import MetaMessage

    facts, meter = lesson.facts, lesson.facts.meter
    if facts.rights:
        track.append(MetaMessage("copyright", text=facts.rights))
    micros = round(_MICROSECONDS / (tempo * float(meter.beat)))
    track.append(MetaMessage("set_tempo", tempo=micros))
    above, below = map(int, meter.text.split("/"))
    clicks = int(_CLOCKS * meter.beat)
    track.append(
        MetaMessage("time_signature", numerator=above, denominator=below, clocks_per_click=clicks)
    )
    mode = "m" if lesson.key.minor else ""
    track.append(MetaMessage("key_signature", key=f"{lesson.key.tonic}{mode}"))


def _play(track: MidiTrack, part: _Part, sent: Iterable[Timed]) -> None:
    """Write the messages of a part in order, with delta times in ticks."""
    from mido import Message, MetaMessage

    if part.program is not None:
        track.append(Message("program_change", channel=part.channel, program=part.program))
    now = 0
    for each in sorted(sent, key=lambda each: (each.tick, each.rank)):
        since, now = each.tick - now, each.tick
        if each.kind == "lyrics":
            track.append(MetaMessage(each.kind, time=since, **each.fields))
        else:
            track.append(Message(each.kind, time=since, channel=part.channel, **each.fields))


def _close(track: MidiTrack, end: int) -> None:
    """Write the end of the track, at the end of the take."""
    from mido import MetaMessage

    now = sum(message.time for message in track)
    track.append(MetaMessage("end_of_track", time=max(0, end - now)))
