"""Files: what is read, and each refusal as one plain sentence."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest
import soundfile

from formsheet.hearing import recording
from formsheet.hearing.recording import RecordingError, read_recording
from formsheet.hearing.spectra import RATE

TONE = np.sin(2 * np.pi * 440 * np.arange(44_100) / 44_100) * 0.3


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".ogg", ".mp3"])
def test_formats(tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"take{suffix}"
    soundfile.write(path, np.stack([TONE, TONE * 0.5], axis=1), 44_100)
    found = read_recording(path)
    assert found.rate == RATE
    assert found.seconds == pytest.approx(1.0, abs=0.1)
    crossings = np.count_nonzero(np.diff(np.signbit(found.samples[RATE // 4 : RATE * 3 // 4])))
    assert crossings == pytest.approx(440, abs=2)


def refused(path: Path) -> str:
    with pytest.raises(RecordingError) as caught:
        read_recording(path)
    text = str(caught.value)
    assert "\n" not in text
    assert ";" in text or "not found" in text  # what is wrong; what to do
    return text


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    assert "file not found" in refused(tmp_path / "take.wav")


def test_an_empty_file(tmp_path: Path) -> None:
    path = tmp_path / "take.wav"
    path.touch()
    assert "is empty" in refused(path)


def test_silence(tmp_path: Path) -> None:
    """-60 dBFS; our own choice."""
    path = tmp_path / "take.wav"
    soundfile.write(path, TONE * 0.0009 / 0.3, 44_100, subtype="FLOAT")
    assert "is silent" in refused(path)
    soundfile.write(path, TONE * 0.0011 / 0.3, 44_100, subtype="FLOAT")
    read_recording(path)


def test_shorter_than_a_note(tmp_path: Path) -> None:
    """0.3 s; our own choice."""
    path = tmp_path / "take.wav"
    soundfile.write(path, TONE[: 44_100 * 29 // 100], 44_100)
    assert "shorter than a note" in refused(path)
    soundfile.write(path, TONE[: 44_100 * 31 // 100], 44_100)
    read_recording(path)


def test_five_minutes_are_the_most(tmp_path: Path) -> None:
    """Our own choice."""
    path = tmp_path / "take.wav"
    minutes = np.tile((TONE[::20] * 10_000).astype(np.int16), 302)
    soundfile.write(path, minutes, 2205)
    assert "lasts 5 minutes, and 5 are the most" in refused(path)
    soundfile.write(path, minutes[: 299 * 2205], 2205)
    read_recording(path)


def test_megabytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "take.wav"
    soundfile.write(path, np.tile(TONE, 12), 44_100)
    monkeypatch.setattr(recording, "MOST_MEGABYTES", 1)
    assert "has 1 MB, and 1 are the most" in refused(path)


def test_values_that_are_no_sound(tmp_path: Path) -> None:
    path = tmp_path / "take.wav"
    soundfile.write(path, np.where(np.arange(44_100) == 9, np.nan, TONE), 44_100, subtype="FLOAT")
    assert "no sound" in refused(path)


def test_a_text(tmp_path: Path) -> None:
    path = tmp_path / "take.wav"
    path.write_text("title Kitchen Shuffle\n" * 20, encoding="utf-8")
    assert "save it as WAV" in refused(path)


def test_what_a_phone_sends_without_ffmpeg(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "take.m4a"
    path.write_bytes(b"\0\0\0\x18ftypM4A \0\0\0\0M4A mp42isom" + bytes(500))
    monkeypatch.setattr(shutil, "which", lambda _name: None)
    assert "install ffmpeg" in refused(path)


def test_ffmpeg_reads_what_the_library_cannot(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stand-in for the program: it writes a second of 32-bit floats, as it is asked to."""
    path, program = tmp_path / "take.m4a", tmp_path / "ffmpeg"
    path.write_bytes(b"no library reads this" * 10)
    raw = tmp_path / "raw"
    raw.write_bytes((TONE[::2]).astype("<f4").tobytes())
    program.write_text(f'#!/bin/sh\ncase "$*" in *"-f f32le"*) cat "{raw}";; esac\n')
    program.chmod(0o755)
    monkeypatch.setattr(shutil, "which", lambda _name: str(program))
    assert read_recording(path).seconds == pytest.approx(1.0)
