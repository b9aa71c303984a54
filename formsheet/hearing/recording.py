"""A recording from a file: mono samples, with limits before the work.

WAV, FLAC, MP3, OGG and Opus are read by the sound library; what a phone sends (`.m4a`) by the
system's `ffmpeg`, if there is one.
"""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from formsheet.hearing.spectra import RATE, Floats, resampled

MOST_MINUTES = 5
MOST_MEGABYTES = 200
LEAST_SECONDS = 0.3
SILENT = 10 ** (-60 / 20)  # a peak below -60 dBFS is silence
_FFMPEG_S = 120  # seconds that it may take
_MOST_RATE = 400_000  # samples a second
_BLOCK = 1 << 20  # samples
SUFFIXES = (".wav", ".flac", ".mp3", ".ogg", ".oga", ".opus", ".aif", ".aiff", ".m4a", ".aac",
            ".mp4", ".3gp", ".webm", ".wma")  # fmt: skip


class RecordingError(Exception):
    """A recording that cannot be used; the message says why, and what to do."""


@dataclass(frozen=True)
class Recording:
    """Mono samples from -1 to 1, `rate` a second."""

    samples: Floats
    rate: int

    @property
    def seconds(self) -> float:
        """Its length."""
        return len(self.samples) / self.rate


def read_recording(path: Path) -> Recording:
    """The recording in a file, at `spectra.RATE`; RecordingError if it cannot be used."""
    if not path.is_file():
        raise RecordingError(f"file not found: {path}")
    size = path.stat().st_size
    if not size:
        raise RecordingError(f"{path} is empty; record it again")
    if size > MOST_MEGABYTES * 1_000_000:
        raise RecordingError(
            f"{path} has {size // 1_000_000} MB, and {MOST_MEGABYTES} are the most; "
            "cut out the part with the lick"
        )
    found = _read(path)
    if found is None:
        found = _by_ffmpeg(path)
    return checked(found, str(path))


def checked(recording: Recording, name: str) -> Recording:
    """The recording; RecordingError where it is too short or silent."""
    if recording.seconds < LEAST_SECONDS:
        raise RecordingError(f"{name} is shorter than a note; record it again")
    if not np.isfinite(recording.samples).all():
        raise RecordingError(f"{name} holds values that are no sound; save it again as WAV")
    if float(np.max(np.abs(recording.samples))) < SILENT:
        raise RecordingError(f"{name} is silent; see that the right microphone is on")
    return recording


def _read(path: Path) -> Recording | None:
    """By the sound library; None where it does not know the format."""
    from soundfile import LibsndfileError, SoundFile

    try:
        with SoundFile(path) as file:
            rate = int(file.samplerate)
            if not 0 < rate <= _MOST_RATE:
                raise RecordingError(f"{path} has {rate} samples a second; save it at 44100")
            _limited(path, len(file) / rate)
            parts = []
            read = 0
            for block in file.blocks(_BLOCK, dtype="float32", always_2d=True):
                parts.append(block.mean(axis=1))
                read += len(block)
                _limited(path, read / rate)  # the length in its head may be wrong
    except LibsndfileError:
        return None
    samples = np.concatenate(parts) if parts else np.zeros(0, dtype=np.float32)
    return Recording(resampled(samples, rate), RATE)


def _limited(path: Path, seconds: float) -> None:
    if seconds > MOST_MINUTES * 60:
        raise RecordingError(
            f"{path} lasts {seconds / 60:.0f} minutes, and {MOST_MINUTES} are the most; "
            "cut out the part with the lick"
        )


def _by_ffmpeg(path: Path) -> Recording:
    program = shutil.which("ffmpeg")
    if not program:
        raise RecordingError(
            f"{path} cannot be read as a recording; save it as WAV, or install ffmpeg, "
            "which reads what phones send (.m4a)"
        )
    command = [
        program, "-nostdin", "-v", "error", "-protocol_whitelist", "file", "-i", f"file:{path}",
        "-vn", "-ac", "1", "-ar", str(RATE), "-t", str(MOST_MINUTES * 60 + 1), "-f", "f32le", "-",
    ]  # fmt: skip
    try:
        done = subprocess.run(command, capture_output=True, timeout=_FFMPEG_S, check=False)
    except subprocess.TimeoutExpired:
        raise RecordingError(f"{path} takes too long to read; save it as WAV") from None
    if done.returncode or not done.stdout:
        raise RecordingError(f"{path} is not a recording that can be read; save it as WAV")
    samples = np.frombuffer(done.stdout[: len(done.stdout) // 4 * 4], dtype="<f4")
    _limited(path, len(samples) / RATE)
    return Recording(samples.astype(np.float32), RATE)
