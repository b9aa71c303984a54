"""Find the part that has the melody, and the top line of its notes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from statistics import fmean

from formsheet.notes.melody import NotesError, Said, Tone

#: Notes that start within this many quarters of each other count as struck together.
_TOGETHER = Fraction(1, 24)
#: Names of parts that have the melody where there is no harmonica. Common practice, no source.
_MELODY = re.compile(r"melod|\blead|vocal|voice|sing|gesang|stimme|sopran|solo", re.IGNORECASE)


@dataclass(frozen=True)
class Part:
    """A part of a file: its name and its notes, unsorted."""

    name: str
    tones: tuple[Tone, ...]
    harmonica: bool = False  # the file says that it is a harmonica's, by instrument or name
    place: tuple[int, int] = (0, 0)  # in the file

    @property
    def height(self) -> float:
        """The mean of the highest pitch of each note, as a MIDI number."""
        return fmean(tone.midi[-1] for tone in self.tones)


def chosen_part(parts: Sequence[Part], wanted: str | None = None) -> tuple[Part, list[Said]]:
    """The part that is wanted, by its name or number; else as `melody_part`.

    NotesError with a list of the parts where none has the name.
    """
    if wanted is None:
        return melody_part(parts)
    folded = wanted.strip().casefold()
    alike = [part for part in parts if part.name.casefold() == folded]
    alike = alike or [part for part in parts if folded and folded in part.name.casefold()]
    if not alike and folded.isdecimal() and 1 <= int(folded[:4]) <= len(parts):
        alike = [parts[int(folded[:4]) - 1]]
    if not alike:
        raise NotesError(f'no part is named "{wanted}"; --part takes {_names(parts)}')
    return alike[0], []


def _names(parts: Sequence[Part]) -> str:
    return ", ".join(
        f"{number} ({part.name})" if part.name else str(number)
        for number, part in enumerate(parts, start=1)
    )


def melody_part(parts: Sequence[Part]) -> tuple[Part, list[Said]]:
    """The part of the harmonica, else one that is named for the melody, else the highest."""
    chosen = max(
        parts, key=lambda part: (part.harmonica, bool(_MELODY.search(part.name)), part.height)
    )
    if len(parts) == 1:
        return chosen, []
    named = bool(_MELODY.search(chosen.name))
    kind = "harmonica-part" if chosen.harmonica else "named-part" if named else "highest-part"
    facts = {"count": len(parts), "name": chosen.name, "names": _names(parts)}
    return chosen, [Said(kind, facts)]


def top_line(tones: Sequence[Tone]) -> tuple[list[Tone], list[Said]]:
    """The top line: simultaneous notes as chords, of overlapping ones the highest."""
    line: list[Tone] = []
    dropped = 0
    for tone in sorted(tones, key=lambda tone: (tone.start, tone.midi)):
        last = line[-1] if line else None
        if last is None or tone.start >= last.end - _TOGETHER:
            if last and tone.start < last.end:
                line[-1] = replace(last, end=tone.start)
            line.append(tone)
        elif tone.start - last.start <= _TOGETHER and abs(tone.end - last.end) <= _TOGETHER:
            line[-1] = replace(last, midi=tuple(sorted({*last.midi, *tone.midi})))
        elif tone.midi[-1] < last.midi[-1]:
            dropped += 1
        elif tone.start - last.start <= _TOGETHER:
            line[-1] = tone
            dropped += 1
        else:
            line[-1] = replace(last, end=tone.start)
            line.append(tone)
    return line, [Said("lower-notes", {"count": dropped})] if dropped else []
