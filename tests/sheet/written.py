"""Writes what is made of a demo lesson: `python -m tests.sheet.written LESSON FOLDER`.

All parts of the pack but the samples of the clips, which take long; their MIDI files are written.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from formsheet.engine.parts import PARTS
from formsheet.problems.drawing import drawn
from formsheet.sound.clips import clips_of
from formsheet.sound.midi import midi_bytes
from tests.lessons import demo
from tests.parts import part_files


def files(name: str) -> Iterator[tuple[str, bytes]]:
    """Names and contents."""
    found = demo(name)
    assert found.tune
    yield "said.txt", "\n".join(map(drawn, found.problems)).encode()
    for part in PARTS:
        if part != "clips":
            yield from part_files(part, found).items()
    for clip in clips_of(found.tune):
        tempo = float(clip.tempo)
        yield (
            f"clips/{clip.name}.mid",
            midi_bytes(clip.taken, found.tune.lesson, tempo, clip.words),
        )


if __name__ == "__main__":
    for name, data in files(sys.argv[1]):
        path = Path(sys.argv[2]) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
