"""Samples to a WAV file, 44.1 kHz and 16 bit, with title and author.

RIFF and its INFO list: "Multimedia Programming Interface and Data Specifications 1.0" (1991).
"""

from __future__ import annotations

import struct
import wave
from collections.abc import Mapping
from io import BytesIO
from typing import TYPE_CHECKING

from formsheet.sound.samples import RATE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_FULL_SCALE = 32_767
_RIFF_HEAD = 8  # bytes: the word RIFF and the size of what follows
TITLE, ARTIST, RIGHTS, DATE, ALBUM, SOFTWARE = "INAM", "IART", "ICOP", "ICRD", "IPRD", "ISFT"


def wav_bytes(samples: Samples, tags: Mapping[str, str]) -> bytes:
    """The content of the file; `samples` from -1 to 1, mono; `tags` by their INFO names."""
    import numpy as np

    data = BytesIO()
    with wave.open(data, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(np.rint(samples * _FULL_SCALE).astype("<i2").tobytes())
    body = data.getvalue()[_RIFF_HEAD:] + _info(tags)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def _info(tags: Mapping[str, str]) -> bytes:
    """The INFO list; empty tags are left out."""
    entries = b"".join(
        _chunk(name.encode("ascii"), words.encode("utf-8") + b"\0")
        for name, words in tags.items()
        if words
    )
    return _chunk(b"LIST", b"INFO" + entries)


def _chunk(name: bytes, content: bytes) -> bytes:
    """A chunk, padded to an even size; its size field does not count the padding."""
    return name + struct.pack("<I", len(content)) + content + b"\0" * (len(content) % 2)
