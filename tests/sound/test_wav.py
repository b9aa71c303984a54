"""The WAV file, read back by the standard library and chunk by chunk."""

from __future__ import annotations

import struct
import wave
from io import BytesIO

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.sound.wav import ARTIST, TITLE, wav_bytes


def chunks(data: bytes, at: int) -> dict[bytes, bytes]:
    """The chunks from a place on: name and content, each at an even place."""
    found = {}
    while at < len(data):
        name, size = struct.unpack_from("<4sI", data, at)
        found[name] = data[at + 8 : at + 8 + size]
        at += 8 + size + size % 2
    assert at == len(data)
    return found


def test_it_is_44100_hertz_and_16_bit() -> None:
    samples = np.array([0.0, 0.5, -0.5, 1.0, -1.0])
    with wave.open(BytesIO(wav_bytes(samples, {}))) as file:
        assert (file.getframerate(), file.getsampwidth(), file.getnchannels()) == (44_100, 2, 1)
        read = np.frombuffer(file.readframes(5), dtype="<i2")
    assert list(read) == [0, 16384, -16384, 32767, -32767]


@given(st.dictionaries(st.sampled_from([TITLE, ARTIST]), st.text().filter(lambda t: "\0" not in t)))
@settings(max_examples=50, derandomize=True, deadline=None, database=None)
def test_tags_are_in_the_info_list(tags: dict[str, str]) -> None:
    data = wav_bytes(np.zeros(3), tags)
    assert struct.unpack_from("<4sI4s", data) == (b"RIFF", len(data) - 8, b"WAVE")
    info = chunks(data, 12)[b"LIST"]
    assert info[:4] == b"INFO"
    found = {name.decode(): words.rstrip(b"\0").decode() for name, words in chunks(info, 4).items()}
    assert found == {name: words for name, words in tags.items() if words}
