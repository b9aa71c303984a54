"""Sampled harmonicas of the General MIDI sound fonts in Debian: measured, never shipped.

They are rendered by FluidSynth, without its reverb and chorus. General MIDI 1: program 23 is the
harmonica (22 counted from zero).
"""

from __future__ import annotations

import shutil
import subprocess
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import mido
import numpy as np
from soundfile import SoundFile

from formsheet.sound.samples import RATE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

#: By the name of the Debian package.
FONTS = {
    "fluid-soundfont-gm": Path("/usr/share/sounds/sf2/FluidR3_GM.sf2"),
    "timgm6mb-soundfont": Path("/usr/share/sounds/sf2/TimGM6mb.sf2"),
}
_HARMONICA = 22
_VELOCITY = 90
_LEAD, _GAP = 0.5, 0.4  # seconds before the first note and between two
_SILENT = 1e-4  # a font has no samples for its highest notes


def missing() -> list[str]:
    """The Debian packages that are needed and are not there."""
    found = [package for package, path in FONTS.items() if not path.exists()]
    return found if shutil.which("fluidsynth") else ["fluidsynth", *found]


@cache
def harmonica(package: str, notes: tuple[int, ...], seconds: float) -> dict[int, Samples]:
    """Each note (MIDI number) that the font has, from its onset, held for so many seconds."""
    with TemporaryDirectory() as folder:
        midi, sound = Path(folder, "notes.mid"), Path(folder, "notes.wav")
        _write(midi, notes, seconds)
        subprocess.run(
            ["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.6", "-r", str(RATE),
             "-O", "float", "-T", "wav", "-F", str(sound), str(FONTS[package]), str(midi)],
            check=True, capture_output=True,
        )  # fmt: skip
        with SoundFile(sound) as file:
            both = file.read(always_2d=True).mean(axis=1)
    found = {}
    for number, note in enumerate(notes):
        start = round((_LEAD + number * (seconds + _GAP)) * RATE)
        piece = both[start : start + round(seconds * RATE)]
        if np.max(np.abs(piece), initial=0.0) > _SILENT:
            found[note] = piece
    return found


def _write(path: Path, notes: tuple[int, ...], seconds: float) -> None:
    second = 1000  # ticks
    file = mido.MidiFile(ticks_per_beat=second)
    track = mido.MidiTrack()
    file.tracks.append(track)
    track.append(mido.MetaMessage("set_tempo", tempo=1_000_000))
    track.append(mido.Message("program_change", program=_HARMONICA))
    wait = _LEAD
    for note in notes:
        on, off = round(wait * second), round(seconds * second)
        track.append(mido.Message("note_on", note=note, velocity=_VELOCITY, time=on))
        track.append(mido.Message("note_off", note=note, velocity=0, time=off))
        wait = _GAP
    file.save(path)
