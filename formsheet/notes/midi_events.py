"""The events of a Standard MIDI File, track by track, within limits that are checked first.

The format: MIDI Manufacturers Association, "Standard MIDI Files 1.0" (1988). A file is at most
`MOST_BYTES` long, so the number of events is bounded too; times are added as whole ticks, and
nothing is made of the silence between events.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from formsheet.notes.melody import NotesError

#: Largest file that is read. A whole band over ten minutes has about 200 kB. Our own choice.
MOST_BYTES = 500_000
MOST_TRACKS = 256
_LONGEST_NUMBER = 4  # bytes of a number of variable length, by the standard

_DATA_BYTES = {0x8: 2, 0x9: 2, 0xA: 2, 0xB: 2, 0xC: 1, 0xD: 1, 0xE: 2}


class Event(NamedTuple):
    """An event: when, what (the status byte, or the type of a meta event), and its bytes."""

    tick: int
    meta: bool
    status: int
    data: bytes


@dataclass(frozen=True)
class Tracks:
    """The content of a file."""

    quarter: int  # ticks
    events: tuple[tuple[Event, ...], ...]
    cut: bool  # it ends before its last track does


def midi_tracks(path: Path) -> Tracks:
    """The tracks of a file; NotesError with one sentence where it cannot be read."""
    size = path.stat().st_size
    if size > MOST_BYTES:
        raise NotesError(
            f"{path} has {size // 1000} kB; a MIDI file of {MOST_BYTES // 1000} kB at most is "
            "read: save the melody's track as a file of its own"
        )
    data = path.read_bytes()
    if data[:4] == b"RIFF" and b"MThd" in data[:64]:
        data = data[data.index(b"MThd") :]
    if data[:4] != b"MThd" or len(data) < 14:
        raise NotesError(f"{path} is not a MIDI file; export it as MIDI or MusicXML again")
    length, kind, _, division = struct.unpack(">IHHh", data[4:14])
    if division <= 0:
        raise NotesError(
            f"{path} counts in seconds, not in beats, so it has no bars: export it with beats"
        )
    if kind == 2:
        raise NotesError(f"{path} holds separate patterns; export the tune as one MIDI file")
    tracks, cut = _tracks(path, data[8 + length :])
    return Tracks(division, tracks, cut)


def _tracks(path: Path, data: bytes) -> tuple[tuple[tuple[Event, ...], ...], bool]:
    found: list[tuple[Event, ...]] = []
    at, cut = 0, False
    while at + 8 <= len(data):
        name, length = data[at : at + 4], int.from_bytes(data[at + 4 : at + 8], "big")
        chunk = data[at + 8 : at + 8 + length]
        cut = cut or len(chunk) < length
        at += 8 + length
        if name != b"MTrk":
            continue
        if len(found) == MOST_TRACKS:
            raise NotesError(
                f"{path} has more than {MOST_TRACKS} tracks: save the melody's track alone"
            )
        events, whole = _events(chunk)
        cut = cut or not whole
        found.append(events)
    return tuple(found), cut


def _events(chunk: bytes) -> tuple[tuple[Event, ...], bool]:
    """The events of a track; whether it could be read to its end."""
    found: list[Event] = []
    try:
        found.extend(_each_event(chunk))
    except (IndexError, ValueError):
        return tuple(found), False
    return tuple(found), True


def _each_event(chunk: bytes) -> Iterator[Event]:
    at = tick = running = 0
    while at < len(chunk):
        delta, at = _number(chunk, at)
        tick += delta
        status = chunk[at]
        if status >= 0x80:
            at += 1
        else:
            status = running
        if status == 0xFF:
            kind = chunk[at]
            length, at = _number(chunk, at + 1)
            yield Event(tick, True, kind, chunk[at : at + length])
            at += length
            if kind == 0x2F:
                return
        elif status in (0xF0, 0xF7):
            length, at = _number(chunk, at)
            at += length
        elif status >> 4 in _DATA_BYTES:
            running = status
            length = _DATA_BYTES[status >> 4]
            if at + length > len(chunk):
                raise IndexError
            yield Event(tick, False, status, chunk[at : at + length])
            at += length
        else:
            raise ValueError(status)


def _number(chunk: bytes, at: int) -> tuple[int, int]:
    """A number of variable length, and the place after it."""
    value = 0
    for _ in range(_LONGEST_NUMBER):
        byte = chunk[at]
        at += 1
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at
    raise ValueError("a number longer than the standard allows")
