"""MIDI files for tests, made by the library that reads them, note by note."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import mido

TICKS = 480
Note = tuple[int, Fraction | float, Fraction | float]  # pitch, start and end in quarters


def midi_file(
    path: Path,
    *parts: Sequence[Note],
    meter: str | None = "4/4",
    key: str | None = None,
    tempo: int | None = None,
    programs: Sequence[int] = (),
    channels: Sequence[int] = (),
) -> Path:
    """A file with a track for each part."""
    file = mido.MidiFile(ticks_per_beat=TICKS)
    head = mido.MidiTrack()
    if meter:
        above, below = map(int, meter.split("/"))
        head.append(mido.MetaMessage("time_signature", numerator=above, denominator=below))
    if key:
        head.append(mido.MetaMessage("key_signature", key=key))
    if tempo:
        head.append(mido.MetaMessage("set_tempo", tempo=mido.bpm2tempo(tempo)))
    file.tracks.append(head)
    for index, notes in enumerate(parts):
        channel = channels[index] if channels else index
        program = programs[index] if programs else 0
        file.tracks.append(_track(notes, channel, program))
    file.save(path)
    return path


def _track(notes: Sequence[Note], channel: int, program: int) -> mido.MidiTrack:
    track = mido.MidiTrack()
    track.append(mido.Message("program_change", channel=channel, program=program))
    events = [(round(start * TICKS), 1, midi) for midi, start, _ in notes]
    events += [(round(end * TICKS), 0, midi) for midi, _, end in notes]
    at = 0
    for tick, on, midi in sorted(events):
        track.append(
            mido.Message("note_on" if on else "note_off", channel=channel, note=midi,
                         velocity=80 * on, time=tick - at)
        )  # fmt: skip
        at = tick
    return track
