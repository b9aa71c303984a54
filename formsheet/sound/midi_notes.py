"""Events to MIDI messages: notes, lyrics, and techniques by pitch wheel and expression."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from formsheet.sound.events import Event
from formsheet.sound.motion import cents, loudness, sounding, stretches
from formsheet.sound.shapes import PLAIN, shape_of

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

TICKS = 480  # per quarter
_STEP = 0.01  # seconds between two values of wheel or expression
_WHEEL = 8191  # the wheel at its top: two half steps, the default range (General MIDI 1)
_WHEEL_CENTS = 200.0
_EXPRESSION = 11  # controller (MIDI 1.0)
_FULL = 127

#: Order of messages at one tick: a note ends before the wheel is reset and the next note begins.
_OFF, _BACK, _SET, _WORD, _ON = range(5)


@dataclass(frozen=True, slots=True)
class Timed:
    """A message and its tick; `rank` orders messages at the same tick."""

    tick: int
    rank: int
    kind: str
    fields: dict[str, object]


@dataclass(frozen=True, slots=True)
class Clock:
    """Converts beats and seconds to ticks."""

    beat: float  # quarters
    tempo: float  # beats a minute

    @property
    def seconds_a_beat(self) -> float:
        """Length of a beat in seconds."""
        return 60 / self.tempo

    def ticks(self, beats: float, seconds: float = 0.0) -> int:
        """The tick nearest to a place: so many beats and, after them, so many seconds."""
        exact = (beats + seconds / self.seconds_a_beat) * self.beat * TICKS
        return round(round(exact, 6))  # removes rounding errors between sums of the same moment


def messages(event: Event, velocity: int, clock: Clock) -> Iterator[Timed]:
    """The messages of a note, its lyric and its technique; `velocity` is for loudness 1."""
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
    """The values of one controller during a note, where they change; reset at the end."""
    more: dict[str, object] = {"control": _EXPRESSION} if kind == "control_change" else {}
    before = rest
    for moment, value in zip(at.tolist(), values.round().astype(int).tolist(), strict=True):
        if value != before:
            yield Timed(clock.ticks(event.start, moment), _SET, kind, {field: value, **more})
            before = value
    if before != rest:
        end = clock.ticks(event.start, sounding(event, clock.seconds_a_beat))
        yield Timed(end, _BACK, kind, {field: rest, **more})
