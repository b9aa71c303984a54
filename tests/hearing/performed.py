"""A made lick as it is played: timing, bends that glide, vibrato; and rendered by FluidSynth."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from math import log2, pi, sin
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import mido
import numpy as np
from soundfile import SoundFile

from formsheet.music.tab import shaken
from tests.hearing.made_licks import MadeLick

RATE = 44_100
#: General MIDI sound fonts of Debian, by the name of the package: measured, never shipped.
FONTS = {
    "fluid-soundfont-gm": Path("/usr/share/sounds/sf2/FluidR3_GM.sf2"),
    "timgm6mb-soundfont": Path("/usr/share/sounds/sf2/TimGM6mb.sf2"),
}
#: A font is silent above this pitch.
SILENT_ABOVE = {"fluid-soundfont-gm": 96, "timgm6mb-soundfont": 103}
#: Cents by which samples of a font are out of tune, by their pitches; measured with this package's
#: own ear, and heard by anyone. They are played in tune here: a harp is not so.
OUT_OF_TUNE = {
    "fluid-soundfont-gm": {},
    "timgm6mb-soundfont": {
        **dict.fromkeys(range(65, 71), -28.0), **dict.fromkeys(range(71, 74), -35.0),
    },
}  # fmt: skip
_HARMONICA = 22  # General MIDI 1: program 23
_RANGE = 12  # half steps of the pitch wheel
_WHEEL_MS = 8
_TAIL_S, _LEAD_S = 1.2, 0.5
_SHAKE_S = 0.085  # seconds of each half of a shake


@dataclass(frozen=True)
class PlayedNote:
    """A note in seconds from the first bar line, as it sounds."""

    midi: tuple[int, ...]
    start: float
    end: float
    velocity: int
    glide: float = 0.0  # half steps above its pitch at the start
    glide_s: float = 0.0
    vibrato: float = 0.0  # cents
    written: int = 0  # index of the written note


def missing() -> list[str]:
    """The Debian packages that are needed and are not there."""
    found = [package for package, path in FONTS.items() if not path.exists()]
    return found if shutil.which("fluidsynth") else ["fluidsynth", *found]


def performance(lick: MadeLick, *, human: bool) -> list[PlayedNote]:
    """The notes as they are played; `human`: 15 ms of jitter, 3 per cent of drift."""
    random = Random(lick.seed * 7 + 1)
    whole = max(lick.seconds(note.end) for note in lick.notes)
    drift = random.choice((-0.03, 0.03)) if human else 0.0

    def moment(place: Any) -> float:
        at = lick.seconds(place)
        return at + drift * at * max(at, 0.0) / (2 * whole)

    starts = [
        moment(note.start) + (random.gauss(0, 0.015) if human else 0.0) for note in lick.notes
    ]
    found = []
    for at, note in enumerate(lick.notes):
        start = starts[at]
        end = moment(note.end)
        following = starts[at + 1] if at + 1 < len(starts) else None
        again = at + 1 < len(starts) and lick.notes[at + 1].midi == note.midi
        if following is not None and lick.notes[at + 1].start == note.end:
            gap = random.uniform(0.035, 0.055) if again else random.uniform(0.0, 0.02)
            end = following - gap
        else:
            end = start + (end - start) * random.uniform(0.85, 1.0)
        end = max(end, start + 0.05)
        bend = note.tab.bend
        glides = bend and random.random() < 0.7
        reed = lick.harp.reed(note.tab.holes[0], note.tab.breath)
        plain = PlayedNote(
            note.midi, start, end, random.randint(80, 105),
            glide=float(reed - note.midi[0]) if glides else 0.0,
            glide_s=min(random.uniform(0.05, 0.12), (end - start) * 0.4) if glides else 0.0,
            vibrato=random.uniform(8, 20) if end - start > 0.35 and random.random() < 0.4 else 0.0,
            written=at,
        )  # fmt: skip
        if note.technique == "shake" and (turns := shaken(note.tab)):
            count = max(2, round((end - start) / _SHAKE_S))
            step = (end - start) / count
            found += [
                PlayedNote(
                    lick.harp.pitches(turns[turn % 2]), start + turn * step,
                    start + (turn + 1) * step - 0.004, plain.velocity, written=at,
                )
                for turn in range(count)
            ]  # fmt: skip
        else:
            found.append(plain)
    return found


def rendered(
    performances: Sequence[Sequence[PlayedNote]], package: str, before: Sequence[float],
    a4: float = 440.0,
) -> list[np.ndarray[Any, np.dtype[np.float64]]]:  # fmt: skip
    """Each performance as samples; the first bar line of each lies `before` seconds in."""
    offset, spans, events = 0.2, [], []
    cents = 1200 * log2(a4 / 440)
    turn = 0
    for notes, lead in zip(performances, before, strict=True):
        for note in notes:
            channel = turn % 8
            turn += 1
            off = OUT_OF_TUNE[package].get(note.midi[0], 0.0)
            events += _events(note, channel, offset + lead, cents - off)
        length = lead + max(note.end for note in notes) + _TAIL_S
        spans.append((offset, length))
        offset += length + 0.5
    both = _synthesised(sorted(events, key=lambda each: each[:2]), package)
    return [
        np.pad(piece, (0, round(length * RATE) - len(piece)))
        for start, length in spans
        for piece in [both[round(start * RATE) : round(start * RATE) + round(length * RATE)]]
    ]


def _events(
    note: PlayedNote, channel: int, offset: float, cents: float
) -> list[tuple[float, int, mido.Message]]:
    start, end = offset + note.start, offset + note.end
    found: list[tuple[float, int, mido.Message]] = []

    def wheel(half_steps: float) -> int:
        return max(-8192, min(8191, round((half_steps + cents / 100) / _RANGE * 8192)))

    at = 0.0
    while at < end - start + 0.3:
        up = note.glide * (1 - at / note.glide_s) if at < note.glide_s else 0.0
        sway = note.vibrato / 100 * sin(2 * pi * 5.3 * max(0.0, at - 0.2)) if note.vibrato else 0.0
        found.append(
            (start + at - 0.001, 0,
             mido.Message("pitchwheel", channel=channel, pitch=wheel(up + sway)))
        )  # fmt: skip
        if not note.vibrato and at >= note.glide_s:
            break
        at += _WHEEL_MS / 1000
    for midi in note.midi:
        found.append((start, 1, mido.Message("note_on", channel=channel, note=midi,
                                             velocity=note.velocity)))  # fmt: skip
        found.append((end, 2, mido.Message("note_off", channel=channel, note=midi)))
    return found


def _synthesised(
    events: Sequence[tuple[float, int, mido.Message]], package: str
) -> np.ndarray[Any, np.dtype[np.float64]]:
    file = mido.MidiFile(ticks_per_beat=10_000)  # a tenth of a millisecond
    track = mido.MidiTrack()
    file.tracks.append(track)
    track.append(mido.MetaMessage("set_tempo", tempo=1_000_000))
    for channel in range(8):
        track.append(mido.Message("program_change", channel=channel, program=_HARMONICA))
        for control, value in ((101, 0), (100, 0), (6, _RANGE), (38, 0)):
            track.append(mido.Message("control_change", channel=channel, control=control,
                                      value=value))  # fmt: skip
    now = 0
    for at, _, message in events:
        tick = max(now, round(at * 10_000))
        track.append(message.copy(time=tick - now))
        now = tick
    with TemporaryDirectory() as folder:
        midi, sound = Path(folder, "played.mid"), Path(folder, "played.wav")
        file.save(midi)
        subprocess.run(
            ["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.6", "-r", str(RATE),
             "-O", "float", "-T", "wav", "-F", str(sound), str(FONTS[package]), str(midi)],
            check=True, capture_output=True,
        )  # fmt: skip
        with SoundFile(sound) as read:
            return np.asarray(read.read(always_2d=True).mean(axis=1))
