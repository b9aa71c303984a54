"""Samples to the bytes of an MP3 file: about a tenth of the size of a WAV, for posting.

Encoded by libsndfile, which comes with its Python package; the same samples are the same bytes.
"""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from typing import TYPE_CHECKING

from formsheet.sound.samples import RATE
from formsheet.sound.wav import ALBUM, ARTIST, DATE, RIGHTS, SOFTWARE, TITLE

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_QUALITY = 0.4  # 0 best, 1 smallest, as libsndfile has it
#: What libsndfile calls the tags.
_NAMES = {
    TITLE: "title",
    ARTIST: "artist",
    ALBUM: "album",
    RIGHTS: "copyright",
    DATE: "date",
    SOFTWARE: "software",
}


def mp3_bytes(samples: Samples, tags: Mapping[str, str]) -> bytes:
    """The file; `samples` from -1 to 1, one channel; `tags` by the names of `wav.py`."""
    from soundfile import SoundFile

    data = BytesIO()
    with SoundFile(
        data,
        "w",
        RATE,
        1,
        format="MP3",
        subtype="MPEG_LAYER_III",
        bitrate_mode="VARIABLE",
        compression_level=_QUALITY,
    ) as file:
        for name, words in tags.items():
            if words:
                setattr(file, _NAMES[name], words)
        file.write(samples)
    return data.getvalue()
