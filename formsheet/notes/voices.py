"""Find the part that has the melody, and the top line of its notes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import fmean

from formsheet.notes.melody import Said, Tone

#: Notes that start within this many quarters of each other count as struck together.
_TOGETHER = Fraction(1, 24)


@dataclass(frozen=True)
class Part:
    """A part of a file: its name and its notes, unsorted."""

    name: str
    tones: tuple[Tone, ...]
    harmonica: bool = False  # the instrument in the file is a harmonica

    @property
    def height(self) -> float:
        """The mean of the highest pitch of each note, as a MIDI number."""
        return fmean(tone.midi[-1] for tone in self.tones)


def melody_part(parts: Sequence[Part]) -> tuple[Part, list[Said]]:
    """The part of the harmonica, else the highest part; with remarks."""
    chosen = max(parts, key=lambda part: (part.harmonica, part.height))
    if len(parts) == 1:
        return chosen, []
    kind = "harmonica-part" if chosen.harmonica else "highest-part"
    return chosen, [Said(kind, {"count": len(parts), "name": chosen.name})]


def top_line(tones: Sequence[Tone]) -> tuple[list[Tone], list[Said]]:
    """The top line: simultaneous notes as chords, of overlapping ones the highest."""
    line: list[Tone] = []
    dropped = 0
    for tone in sorted(tones, key=lambda tone: (tone.start, tone.midi)):
        last = line[-1] if line else None
        if last is None or tone.start >= last.end - _TOGETHER:
            if last and tone.start < last.end:
                line[-1] = Tone(last.midi, last.start, tone.start)
            line.append(tone)
        elif tone.start - last.start <= _TOGETHER and abs(tone.end - last.end) <= _TOGETHER:
            line[-1] = Tone(tuple(sorted({*last.midi, *tone.midi})), last.start, last.end)
        elif tone.midi[-1] < last.midi[-1]:
            dropped += 1
        elif tone.start - last.start <= _TOGETHER:
            line[-1] = tone
            dropped += 1
        else:
            line[-1] = Tone(last.midi, last.start, tone.start)
            line.append(tone)
    return line, [Said("lower-notes", {"count": dropped})] if dropped else []
