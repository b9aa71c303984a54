"""Which harps can play what was heard, where nobody has said it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.arrange.rank import Layout, harps_for, ranked
from formsheet.arrange.sounds import Line, Sound
from formsheet.hearing.actions import any_pitch
from formsheet.hearing.notes import HeardNote, Listening, notes_of
from formsheet.music.key import Key
from formsheet.music.tunings import RICHTER, Tuning
from formsheet.notes.keyfinding import found_key
from formsheet.notes.melody import Tone

_REGISTERS = ("", "low")
#: Cost a note of a position other than 2nd, in units of `Cost.burden`: blues is played in 2nd
#: position first, then in 3rd and 1st. Common practice, no source; the numbers are our own choice.
_STRANGE = {2: 0.0, 1: 0.3, 3: 0.3, 12: 0.6, 4: 0.6, 5: 0.6}
_RARE = 1.0
_QUARTER_S = 0.6  # seconds: as `arrange.cost` has it, for the ease of moves
_STEP = 16  # parts of a quarter
_LEAST_S = 0.06  # a shorter note may be none


def layouts_of(
    heard: Listening, position: int | None, tuning: Tuning = RICHTER
) -> tuple[list[Layout], Key | None]:
    """The harps that can play a recording, best first, and the key that was found.

    Only those in the position, if it is known. No layout where nothing was heard.
    """
    notes = [note for note in notes_of(heard, any_pitch()) if note.end - note.start > _LEAST_S]
    if not notes:
        return [], None
    key = found_key([_tone(note) for note in notes])
    harps = [
        (place, harp)
        for register in _REGISTERS
        for place, harp in harps_for(key.tonic, register, tuning)
        if position in (None, place)
    ]
    found = ranked([_line(notes)], harps, octaves=(0,))
    return sorted(found, key=_for_blues), key


def _for_blues(layout: Layout) -> tuple[int, float]:
    """A sort key, best first: what is missing, then how usual the position is, and bends."""
    cost = layout.arranged.cost
    strange = _STRANGE.get(layout.position, _RARE) * layout.arranged.notes
    return cost.missing, cost.burden + strange


def _tone(note: HeardNote) -> Tone:
    return Tone(note.midi, _quarters(note.start), _quarters(note.end))


def _quarters(seconds: float) -> Fraction:
    return Fraction(round(seconds / _QUARTER_S * _STEP), _STEP)


def _line(notes: Sequence[HeardNote]) -> Line:
    found = []
    before = notes[0].start
    for note in notes:
        gap = max(_quarters(note.start - before), Fraction(1, _STEP))
        found.append(Sound(note.midi, 1, _quarters(note.start), gap, melody=True))
        before = note.start
    return tuple(found)
