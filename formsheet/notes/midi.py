"""Read a MIDI file: the top line of the part with the melody, in quarters."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

from formsheet.music.key import Key, key_of_signature
from formsheet.notes.bars import meter_length
from formsheet.notes.melody import MOST_BARS, NotesError, Reading, Said, Tone, WrittenBar
from formsheet.notes.midi_bends import Bends
from formsheet.notes.midi_events import Event, Tracks, midi_tracks
from formsheet.notes.voices import Part, chosen_part, top_line

_DRUMS = 9  # channel 10 of General MIDI, counted from 0
_HARMONICA = 22  # General MIDI program 23, counted from 0
_ORCHESTRAL_HARP = 46
_MICROSECONDS = 60_000_000
#: Meta events (Standard MIDI Files 1.0).
_NAME, _TEMPO, _METER, _SIGNATURE = 0x03, 0x51, 0x58, 0x59
_MOST_SHARPS = 7
_SMALLEST_PART = 6  # of a whole note, as a power of two: sixty-fourths

#: A note this much before a bar line, in quarters, belongs to the bar after it.
_EARLY = Fraction(1, 12)

Channel = tuple[int, int]  # track and channel


@dataclass
class _File:
    """The content of the file, times in quarters."""

    quarter: int  # ticks
    meters: list[tuple[Fraction, str]] = field(default_factory=list)
    keys: list[Key] = field(default_factory=list)
    tempos: list[tuple[Fraction, int]] = field(default_factory=list)
    tones: dict[Channel, list[Tone]] = field(default_factory=dict)
    names: dict[int, str] = field(default_factory=dict)  # of tracks
    programs: dict[Channel, int] = field(default_factory=dict)
    bends: dict[int, Bends] = field(default_factory=dict)  # by channel


def read_midi(path: Path, part: str | None = None) -> Reading:
    """The melody of a MIDI file; NotesError if it is unreadable or has no melody.

    `part` names the track to take.
    """
    tracks = midi_tracks(path)
    found = _File(tracks.quarter)
    for track in tracks.events:  # a bend may stand in another track than its notes
        for event in track:
            if not event.meta:
                bends = found.bends.setdefault(event.status & 0xF, Bends())
                bends.take(Fraction(event.tick, found.quarter), event.status >> 4, event.data)
    for index, track in enumerate(tracks.events):
        _read_track(found, index, track)
    return _reading(path, found, tracks, part)


def _read_track(found: _File, index: int, track: Sequence[Event]) -> None:
    sounding: dict[tuple[int, int], Fraction] = {}
    at = Fraction(0)
    for event in track:
        at = Fraction(event.tick, found.quarter)
        if event.meta:
            _read_meta(found, index, at, event)
            continue
        kind, channel = event.status >> 4, event.status & 0xF
        if kind == 0xC:
            found.programs.setdefault((index, channel), event.data[0])
        elif kind in (0x8, 0x9) and channel != _DRUMS:
            part = found.tones.setdefault((index, channel), [])
            note, velocity = event.data
            started = sounding.pop((channel, note), None)
            if started is not None and at > started:
                part.append(Tone((note & 0x7F,), started, at))
            if kind == 0x9 and velocity:
                sounding[channel, note] = at
    for (channel, note), started in sounding.items():  # never let go: to the end of the track
        if at > started:
            found.tones[index, channel].append(Tone((note & 0x7F,), started, at))


def _read_meta(found: _File, index: int, at: Fraction, event: Event) -> None:
    data = event.data
    if event.status == _NAME:
        found.names.setdefault(index, data.decode("utf-8", "replace").strip("\0 \n"))
    elif event.status == _TEMPO and len(data) == 3:
        found.tempos.append((at, int.from_bytes(data, "big")))
    elif event.status == _METER and len(data) >= 2 and data[0] and data[1] <= _SMALLEST_PART:
        found.meters.append((at, f"{data[0]}/{2 ** data[1]}"))
    elif event.status == _SIGNATURE and len(data) == 2:
        sharps = data[0] - 256 if data[0] > 127 else data[0]
        if abs(sharps) <= _MOST_SHARPS:
            found.keys.append(key_of_signature(sharps, bool(data[1])))


def _tempo(found: _File) -> tuple[Fraction | None, list[Said]]:
    """The tempo in quarters a minute; the file has whole microseconds a quarter."""
    tempos = [each for _, each in sorted(found.tempos) if each]
    if not tempos:
        return None, []
    said = [Said("tempos", {"count": len(set(tempos))})] if len(set(tempos)) > 1 else []
    return Fraction(_MICROSECONDS, tempos[0]).limit_denominator(100), said


def _reading(path: Path, found: _File, tracks: Tracks, wanted: str | None) -> Reading:
    parts = [
        Part(
            found.names.get(place[0], ""),
            tuple(tones),
            _is_harmonica(found.names.get(place[0], ""), found.programs.get(place)),
            place,
        )
        for place, tones in found.tones.items()
        if tones
    ]
    if not parts:
        cut = "; it is cut off: export it again" if tracks.cut else ""
        raise NotesError(f"{path} has no notes{cut}")
    part, said = chosen_part(parts, wanted)
    tones, bent = found.bends[part.place[1]].bent(part.tones)
    line, more = top_line(tones)
    tempo, tempos = _tempo(found)
    meters = sorted(found.meters) or [(Fraction(0), "4/4")]
    said += [*more, *bent, *tempos, *([] if found.meters else [Said("no-meter")])]
    if tracks.cut:
        said.append(Said("cut-off"))
    keys = dict.fromkeys(found.keys)
    if len(keys) > 1:
        said.append(Said("keys", {"names": [key.name for key in keys]}))
    bars = _bars(meters, line[0].start, max(tone.end for tone in line))
    if empty := int(bars[0].number) - 1:
        said.append(Said("empty-bars", {"count": empty}))
    return Reading(
        tones=tuple(line),
        meter=bars[0].meter,
        played=True,
        title=path.stem,
        key=found.keys[0] if found.keys else None,
        tempo=tempo,
        said=tuple(said),
        bars=tuple(bars),
    )


def _is_harmonica(name: str, program: int | None) -> bool:
    if program == _HARMONICA:
        return True
    return program != _ORCHESTRAL_HARP and names_a_harmonica(name)


def names_a_harmonica(name: str) -> bool:
    """Whether the name of a track or part is that of a harmonica."""
    return bool(re.search(r"harmoni[ck]a|\bharp\b|mundharm|blues harp", name, re.IGNORECASE))


def _bars(
    meters: Sequence[tuple[Fraction, str]], first: Fraction, end: Fraction
) -> list[WrittenBar]:
    """The bars to the end of the melody, without empty ones before it; one more than is read."""
    changes = [(at, meter) for at, meter in meters if at < end]
    if not changes or changes[0][0] > 0:
        changes.insert(0, (Fraction(0), changes[0][1] if changes else meters[0][1]))
    bars: list[WrittenBar] = []
    number = 1
    for index, (at, meter) in enumerate(changes):
        length = meter_length(meter)
        stop = changes[index + 1][0] if index + 1 < len(changes) else end
        empty = int(max(Fraction(0), min(first, stop) - at + _EARLY) // length)
        at, number = at + empty * length, number + empty
        while at < stop:
            if len(bars) > MOST_BARS:
                return bars
            bars.append(WrittenBar(str(number), at, length, meter))
            at, number = at + length, number + 1
    return bars
