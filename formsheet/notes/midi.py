"""Read a MIDI file: the top line of the part with the melody, in quarters."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from formsheet.music.key import Key
from formsheet.notes.melody import NotesError, Reading, Said, Tone
from formsheet.notes.voices import Part, melody_part, top_line

_DRUMS = 9  # channel 10 of General MIDI, counted from 0
_HARMONICA = 22  # General MIDI program 23, counted from 0
_KEY = re.compile(r"([A-G][b#]?)(m?)")
_MICROSECONDS = 60_000_000


@dataclass
class _File:
    """The content of the file, times in quarters."""

    quarter: int  # ticks
    meters: list[str] = field(default_factory=list)
    keys: list[str] = field(default_factory=list)
    tempos: list[int] = field(default_factory=list)
    parts: dict[tuple[int, int], list[Tone]] = field(default_factory=dict)  # by track and channel
    names: dict[int, str] = field(default_factory=dict)  # of tracks
    programs: dict[tuple[int, int], int] = field(default_factory=dict)


def read_midi(path: Path) -> Reading:
    """The melody of a MIDI file; NotesError if it is unreadable or has no melody."""
    import mido

    try:
        file = mido.MidiFile(path, clip=True)
    except OSError as caught:
        raise NotesError(f"{path} cannot be read as MIDI: {caught}") from None
    except (EOFError, ValueError, KeyError, IndexError) as caught:
        raise NotesError(f"{path} is not a readable MIDI file ({caught})") from None
    found = _File(file.ticks_per_beat)
    if file.ticks_per_beat <= 0:
        raise NotesError(f"{path} counts in seconds, not in beats: it has no bars to write")
    for index, track in enumerate(file.tracks):
        _read_track(found, index, track)
    return _reading(path, found)


def _read_track(found: _File, index: int, track: Sequence[Any]) -> None:
    ticks = 0
    sounding: dict[tuple[int, int], Fraction] = {}
    for message in track:
        ticks += message.time
        at = Fraction(ticks, found.quarter)
        match message.type:
            case "time_signature":
                found.meters.append(f"{message.numerator}/{message.denominator}")
            case "key_signature":
                found.keys.append(message.key)
            case "set_tempo":
                found.tempos.append(message.tempo)
            case "track_name":
                found.names.setdefault(index, message.name)
            case "program_change":
                found.programs.setdefault((index, message.channel), message.program)
            case "note_on" | "note_off" if message.channel != _DRUMS:
                part = found.parts.setdefault((index, message.channel), [])
                key = (message.channel, message.note)
                started = sounding.pop(key, None)
                if started is not None and at > started:
                    part.append(Tone((message.note,), started, at))
                if message.type == "note_on" and message.velocity:
                    sounding[key] = at


def _tempo(found: _File) -> Fraction | None:
    """The tempo in quarters a minute; the file has whole microseconds a quarter."""
    if not found.tempos or not found.tempos[0]:
        return None
    return Fraction(_MICROSECONDS, found.tempos[0]).limit_denominator(100)


def _reading(path: Path, found: _File) -> Reading:
    if len(set(found.meters)) > 1:
        raise NotesError(f"the meter of {path} changes ({', '.join(dict.fromkeys(found.meters))})")
    parts = [
        Part(found.names.get(place[0], ""), tuple(tones), found.programs.get(place) == _HARMONICA)
        for place, tones in found.parts.items()
        if tones
    ]
    if not parts:
        raise NotesError(f"{path} has no notes")
    part, said = melody_part(parts)
    tones, more = top_line(part.tones)
    said += more if found.meters else [*more, Said("no-meter")]
    key = _KEY.fullmatch(found.keys[0]) if found.keys else None
    return Reading(
        tones=tuple(tones),
        meter=found.meters[0] if found.meters else "4/4",
        played=True,
        title=path.stem,
        key=Key(key[1], bool(key[2])) if key else None,
        tempo=_tempo(found),
        said=tuple(said),
    )
