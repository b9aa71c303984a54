"""Breath: how full or empty the student's chest is along the tune. All numbers are our own choice.

The air is counted in seconds of a single note of middle height: drawing fills, blowing empties,
from a comfortable middle. A block takes more air than a single note, a low reed more than a high
one. A rest brings the chest back to the middle, about four seconds of playing a second of rest,
from a tenth of a second on: in less nobody breathes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from formsheet.judge.level import LIMITS
from formsheet.music.tab import Breath
from formsheet.tune.timeline import Note, Tune

#: Air of each further hole of a block or split, as a share of that of a single note: the mouth
#: opens wider, but the same lungs feed all its reeds.
FURTHER_HOLE = 0.5
#: The MIDI number of a note that takes one second of air a second: middle C.
MIDDLE_NOTE = 60
#: Half steps above it at which a reed takes half of that air.
HALVED_AFTER = 36
#: The least and the most air of a single reed.
LEAST_FLOW, MOST_FLOW = 0.6, 1.5
#: Seconds of a rest in which nobody breathes yet.
SHORTEST_BREATH = 0.1
#: Seconds of playing that a second of rest makes good.
RELEASE = 4.0


class Airless(NamedTuple):
    """A place where the student is full or empty."""

    note: int  # index of the note during which it happens
    since: int  # index of the note after the last place with a moment to breathe
    full: bool  # full of drawn air; else empty
    air: float  # seconds of air taken or given since the middle


class BreathFit(NamedTuple):
    """The breath of a tune at one tempo."""

    tempo: float  # beats a minute
    drawn: float  # seconds of air drawn in the whole tune
    blown: float  # and blown
    peak: float  # the most air above or below the middle, in seconds
    peak_note: int | None  # index of the note at the end of which it is reached
    airless: tuple[Airless, ...]  # beyond the level's limit; from there on counted from the middle

    @property
    def drawn_share(self) -> float | None:
        """The share of drawn air, 0 to 1; None where nothing sounds."""
        total = self.drawn + self.blown
        return self.drawn / total if total else None


@lru_cache(4096)
def flow(midi: tuple[int, ...]) -> float:
    """Air of a note or block in seconds of a single middle note, a second of sound."""
    middle = sum(midi) / len(midi)
    single = 2 ** ((MIDDLE_NOTE - middle) / HALVED_AFTER)
    return min(max(single, LEAST_FLOW), MOST_FLOW) * (1 + FURTHER_HOLE * (len(midi) - 1))


def judge_breath(tune: Tune, tempo: float, notes: Sequence[Note] | None = None) -> BreathFit:
    """The breath of a tune at a tempo in beats a minute, for a student of its level.

    `notes` may differ from those of the tune, to try a change.
    """
    notes = tune.notes if notes is None else notes
    limit = LIMITS[tune.lesson.facts.level].air
    slower = float(tune.lesson.facts.tempo) / tempo
    drawn = blown = chest = own = peak = 0.0  # `own`: counted on from the middle where airless
    peak_note, since = None, 0
    airless: list[Airless] = []
    end = 0.0
    for index, note in enumerate(notes):
        rest = max(0.0, (note.start_s - end) * slower - SHORTEST_BREATH)
        if rest and index:
            chest, own = _rested(chest, rest), _rested(own, rest)
            if not own:
                since = index
        air = flow(note.midi) * (note.end_s - note.start_s) * slower
        if note.tab.breath is Breath.DRAW:
            drawn += air
        else:
            blown += air
            air = -air
        chest, own, end = chest + air, own + air, note.end_s
        if abs(chest) > peak:
            peak, peak_note = abs(chest), index
        if abs(own) > limit:
            airless.append(Airless(index, since, own > 0, abs(own)))
            own, since = 0.0, index + 1
    return BreathFit(tempo, drawn, blown, peak, peak_note, tuple(airless))


def _rested(chest: float, rest: float) -> float:
    """The air above or below the middle after a rest of so many seconds."""
    kept = max(0.0, abs(chest) - RELEASE * rest)
    return kept if chest > 0 else -kept


def places_to_breathe(tune: Tune) -> Iterator[int]:
    """Indices of the notes after which a rest is long enough to breathe at the tune's tempo."""
    for index, (last, first) in enumerate(pairwise(tune.notes)):
        if first.start_s - last.end_s > SHORTEST_BREATH:
            yield index
