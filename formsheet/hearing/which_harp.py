"""Which harps can play what was heard, where nobody has said it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.arrange.rank import Layout, harps_for, ranked
from formsheet.arrange.sounds import Line, Sound
from formsheet.hearing.actions import any_pitch
from formsheet.hearing.notes import HeardNote, Listening, notes_of
from formsheet.music.key import song_key
from formsheet.music.pitch import OCTAVE
from formsheet.music.tunings import RICHTER, Tuning

_REGISTERS = ("", "low")
#: Cost a note of a position other than 2nd, in units of `Cost.burden`: blues is played in 2nd
#: position first, then in 3rd and 1st. Common practice, no source; the numbers are our own choice.
_STRANGE = {2: 0.0, 1: 0.3, 3: 0.3, 12: 0.6, 4: 0.6, 5: 0.6}
_RARE = 1.0
#: What speaks for a key note, in the same units: all the time on it, the last note, the first.
_TIME, _LAST, _FIRST = 1.5, 0.7, 0.3
_QUARTER_S = 0.6  # seconds: as `arrange.cost` has it, for the ease of moves
_STEP = 16  # parts of a quarter
_LEAST_S = 0.06  # a shorter note may be none


def layouts_of(heard: Listening, position: int | None, tuning: Tuning = RICHTER) -> list[Layout]:
    """The harps that can play a recording, best first, each in its likeliest position.

    In the given position, if it is known. No layout where nothing was heard.
    """
    notes = [note for note in notes_of(heard, any_pitch()) if note.end - note.start > _LEAST_S]
    if not notes:
        return []
    harps = [each for register in _REGISTERS for each in harps_for("C", register, tuning)]
    homes = _homes(notes)
    found = []
    for layout in ranked([_line(notes)], harps, octaves=(0,)):
        places = [position] if position else range(1, OCTAVE + 1)
        best = min(places, key=lambda place: _strange(layout, place, homes))
        found.append(Layout(layout.harp, best, layout.arranged))
    return sorted(found, key=lambda layout: _rank(layout, homes))


def _rank(layout: Layout, homes: Sequence[float]) -> tuple[int, float]:
    """A sort key, best first: what is missing; then bends, the position, its key note."""
    cost = layout.arranged.cost
    ease = cost.burden / layout.arranged.notes
    return cost.missing, ease + _strange(layout, layout.position, homes)


def _strange(layout: Layout, position: int, homes: Sequence[float]) -> float:
    """How unlikely a position is, for a note of the music."""
    tonic = song_key(layout.harp.key, position).pitch_class
    return _STRANGE.get(position, _RARE) - homes[tonic]


def _homes(notes: Sequence[HeardNote]) -> list[float]:
    """What speaks for each pitch class as the key note."""
    found = [0.0] * OCTAVE
    whole = sum(note.end - note.start for note in notes)
    for note in notes:
        found[note.midi[0] % OCTAVE] += _TIME * (note.end - note.start) / whole
    found[notes[-1].midi[0] % OCTAVE] += _LAST
    found[notes[0].midi[0] % OCTAVE] += _FIRST
    return found


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
