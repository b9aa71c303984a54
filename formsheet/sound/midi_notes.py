"""Events to MIDI messages: notes, their words, and what techniques do by wheel and expression."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from formsheet.sound.events import Event
from formsheet.sound.motion import cents, loudness, sounding, stretches
from formsheet.sound.shapes import PLAIN, shape_of

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

TICKS = 480  # a quarter
_STEP = 0.01  # seconds between two settings of the wheel or the expression
_WHEEL = 8191  # the wheel's way up; two half steps, as a new instrument has it (General MIDI 1)
_WHEEL_CENTS = 200.0
_EXPRESSION = 11  # controller (MIDI 1.0)
_FULL = 127

#: In the order in which messages of one tick are sent: a note ends before the wheel goes back
#: and the next note begins.
_OFF, _BACK, _SET, _WORD, _ON = range(5)


@dataclass(frozen=True, slots=True)
class Timed:
    """A message at its tick; `rank` orders those of one tick."""

    tick: int
    rank: int
    kind: str
    fields: dict[str, object]


@dataclass(frozen=True, slots=True)
class Clock:
    """Beats and seconds to ticks."""

    beat: float  # quarters
    tempo: float  # beats a minute

    @property
    def seconds_a_beat(self) -> float:
        """How long a beat is."""
        return 60 / self.tempo

    def ticks(self, beats: float, seconds: float = 0.0) -> int:
        """The tick nearest to so many beats, and seconds after them."""
        exact = (beats + seconds / self.seconds_a_beat) * self.beat * TICKS
        return round(round(exact, 6))  # two sums of one moment may differ far behind the point


def messages(event: Event, velocity: int, clock: Clock) -> Iterator[Timed]:
    """A note with its word and its technique; `velocity` is that of loudness 1."""
    import numpy as np

    if event.syllable:
        yield Timed(clock.ticks(event.start), _WORD, "lyrics", {"text": event.syllable})
    shape = shape_of(event.technique)
    loudest = 1.0
    if shape is not PLAIN:
        length = sounding(event, clock.seconds_a_beat)
        at = np.arange(0.0, length, _STEP)
        loud = loudness(shape, at, length)
        loudest = float(loud.max())
        bent = cents(shape, at, length)
        wheel, expression = _WHEEL * bent / _WHEEL_CENTS, _FULL * loud / loudest
        yield from _settings(event, at, wheel, "pitchwheel", "pitch", 0, clock)
        yield from _settings(event, at, expression, "control_change", "value", _FULL, clock)
    struck = min(_FULL, max(1, round(velocity * event.loudness * loudest)))
    for each in stretches(event, clock.seconds_a_beat):
        start = clock.ticks(event.start, each.start)
        end = max(clock.ticks(event.start, each.start + each.length), start + 1)
        for note in each.midi:
            yield Timed(start, _ON, "note_on", {"note": note, "velocity": struck})
            yield Timed(end, _OFF, "note_off", {"note": note, "velocity": 0})


def _settings(
    event: Event, at: Samples, values: Samples, kind: str, field: str, rest: int, clock: Clock
) -> Iterator[Timed]:
    """One control through a note, wherever it changes, and back to rest at the note's end."""
    more: dict[str, object] = {"control": _EXPRESSION} if kind == "control_change" else {}
    before = rest
    for moment, value in zip(at.tolist(), values.round().astype(int).tolist(), strict=True):
        if value != before:
            yield Timed(clock.ticks(event.start, moment), _SET, kind, {field: value, **more})
            before = value
    if before != rest:
        end = clock.ticks(event.start, sounding(event, clock.seconds_a_beat))
        yield Timed(end, _BACK, kind, {field: rest, **more})
