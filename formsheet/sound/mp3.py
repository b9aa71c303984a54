"""Samples to MP3, for phones and sending: about a tenth of the size of a WAV file.

Encoded by LAME; equal samples give equal bytes. Before its frames stand an ID3v2.3 tag (id3.org,
"ID3 tag version 2.3.0") and a frame that tells players the exact length, and how many samples the
encoder added at both ends: the VBR frame of "Mp3 Info Tag rev 1 specifications" (LAME project).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from formsheet.sound.samples import RATE
from formsheet.sound.wav import ALBUM, ARTIST, DATE, RIGHTS, SOFTWARE, TITLE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_FULL_SCALE = 32_767
_VARIABLE, _QUALITY, _EFFORT = 4, 6, 5  # LAME: `--vbr-new`, -V 6, -q 5
#: Frames of ID3 by INFO name.
_FRAMES = {TITLE: b"TIT2", ARTIST: b"TPE1", ALBUM: b"TALB", RIGHTS: b"TCOP", DATE: b"TYER",
           SOFTWARE: b"TSSE"}  # fmt: skip
_FRAME = 1152  # samples of a frame of MPEG-1 layer III
_DELAY = 576  # samples that LAME adds at the start
# MPEG-1 layer III: the bitrates by their index, and the bytes of the head and of one channel's
# side information (ISO/IEC 11172-3).
_BITRATES = (0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320)
_HEAD, _SIDE = 4, 17
_PLACES = 100  # in the table by which a player finds its way


def mp3_bytes(samples: Samples, tags: Mapping[str, str]) -> bytes:
    """The content of the file; `samples` from -1 to 1, mono; `tags` by the names of `wav.py`."""
    import lameenc
    import numpy as np

    encoder = lameenc.Encoder()
    encoder.silence()
    encoder.set_channels(1)
    encoder.set_in_sample_rate(RATE)
    encoder.set_vbr(_VARIABLE)
    encoder.set_vbr_quality(_QUALITY)
    encoder.set_quality(_EFFORT)
    data = np.rint(samples * _FULL_SCALE).astype("<i2").tobytes()
    frames = bytes(encoder.encode(data)) + bytes(encoder.flush())
    return _tag(tags) + _length_frame(frames, len(samples)) + frames


def _tag(tags: Mapping[str, str]) -> bytes:
    """An ID3v2.3 tag; empty where no tag has words."""
    body = b""
    for name, words in tags.items():
        if words:
            text = b"\x01" + words.encode("utf-16")
            body += _FRAMES[name] + len(text).to_bytes(4, "big") + b"\0\0" + text
    if not body:
        return b""
    size = bytes(len(body) >> shift & 0x7F for shift in (21, 14, 7, 0))
    return b"ID3\x03\0\0" + size + body


def _length_frame(frames: bytes, samples: int) -> bytes:
    """A silent frame that says how long the others are."""
    starts = _starts(frames)
    room = 4 + 4 + 4 + 4 + _PLACES + 4 + 36  # the fields that follow
    needed = _HEAD + _SIDE + room
    rate = next(index for index, _ in enumerate(_BITRATES) if index and _size(index) >= needed)
    size = _size(rate)
    head = bytes([frames[0], frames[1] | 1, rate << 4 | frames[2] & 0x0C, frames[3]])
    total = size + len(frames)
    at = [starts[len(starts) * place // _PLACES] + size for place in range(_PLACES)]
    table = bytes(min(255, 256 * each // total) for each in at)
    padding = len(starts) * _FRAME - samples - _DELAY
    body = (
        b"Xing" + (0b1111).to_bytes(4, "big") + len(starts).to_bytes(4, "big")
        + total.to_bytes(4, "big") + table + (100 - 10 * _QUALITY).to_bytes(4, "big")
        + b"LAME3.100" + b"\x04" + bytes(11)
        + (_DELAY << 12 | min(max(padding, 0), 0xFFF)).to_bytes(3, "big")
        + bytes(4) + total.to_bytes(4, "big") + bytes(2)
    )  # fmt: skip
    frame = (head + bytes(_SIDE) + body).ljust(size, b"\0")
    end = _HEAD + _SIDE + 4 + 4 + 4 + 4 + _PLACES + 4 + 34
    return frame[:end] + _crc(frame[:end]).to_bytes(2, "big") + frame[end + 2 :]


def _starts(frames: bytes) -> list[int]:
    """Where each frame starts."""
    found, at = [], 0
    while at + _HEAD <= len(frames):
        found.append(at)
        at += _size(frames[at + 2] >> 4) + (frames[at + 2] >> 1 & 1)
    return found


def _size(bitrate: int) -> int:
    """Bytes of a frame without padding, by the index of its bitrate."""
    return 144_000 * _BITRATES[bitrate] // RATE


def _crc(data: bytes) -> int:
    """CRC-16 as the LAME tag has it: polynomial 0x8005, lowest bit first."""
    crc = 0
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = crc >> 1 ^ (0xA001 if crc & 1 else 0)
    return crc
