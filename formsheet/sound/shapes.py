"""Techniques as shapes of a note: the course of its pitch, loudness and brightness.

What a technique does is common practice, no source; the numbers are our own choice. The sound
clips, the MIDI file and the play-along page use this table.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Point:
    """A point of a curve. Between points the curve is a straight line; beyond them it is level."""

    value: float
    seconds: float = 0.0  # after the place given by `share`; negative: before it
    share: float = 0.0  # place as a share of the sounding note, 0 to 1

    def at(self, length: float) -> float:
        """Time of the point in seconds from the note's start; the note sounds `length` seconds."""
        return min(max(self.share * length + self.seconds, 0.0), length)


Curve = tuple[Point, ...]  # empty: level, at the curve's plain value


@dataclass(frozen=True, slots=True)
class Wave:
    """A sine modulation that starts late and grows from 0."""

    hertz: float
    cents: float = 0.0  # amplitude in pitch
    loudness: float = 0.0  # amplitude in loudness, as a share of it
    after: float = 0.0  # seconds until it starts
    growth: float = 0.1  # seconds from its start to full amplitude


@dataclass(frozen=True, slots=True)
class Shape:
    """The course of a note as it sounds; the defaults leave it level."""

    pitch: Curve = ()  # cents from the note's pitch; plain: 0
    loudness: Curve = ()  # times the note's own; plain: 1
    brightness: Curve = ()  # share of the upper partials, 0 to 1; plain: 1
    wave: Wave | None = None
    turns: float = 0.0  # of a shake: changes of hole a second
    sounds: float = 1.0  # share of the note's length that sounds, 0 to 1
    attack: float = 0.02  # seconds from silence to full, for the middle note of the recipe
    release: float = 0.03  # seconds from full to silence, at the end of the sounding part
    puff: float = 0.0  # noise of tongue or breath at the start, as a share of the tone


#: A note without a technique: it swells as the reed starts, then the breath fades. Common practice,
#: no source.
PLAIN = Shape(
    loudness=(Point(0.86), Point(1.05, 0.06), Point(0.98, 0.4), Point(0.84, 0.0, 1.0)),
    brightness=(Point(1.0), Point(0.97, 0.0, 1.0)),
)

#: By the word in braces; every word of `vocabulary.techniques.TECHNIQUES` has an entry.
SHAPES: dict[str, Shape] = {
    # Cupped hands open and close: dark, bright, dark.
    "wah": Shape(
        loudness=(Point(0.45), Point(1.0, 0.16), Point(1.0, -0.14, 1.0), Point(0.5, 0.0, 1.0)),
        brightness=(Point(0.05), Point(1.0, 0.2), Point(1.0, -0.2, 1.0), Point(0.1, 0.0, 1.0)),
        attack=0.015,
    ),
    # The note and the hole above it alternate.
    "shake": Shape(turns=10.0),
    # On the pitch, a sag, and back.
    "dip": Shape(
        pitch=(Point(0.0, 0.03), Point(-90.0, 0.11), Point(-60.0, 0.14), Point(0.0, 0.22))
    ),
    # From below up to the pitch.
    "scoop": Shape(pitch=(Point(-100.0, 0.03), Point(-70.0, 0.1), Point(0.0, 0.18))),
    # From the throat: pitch and loudness together.
    "vibrato": Shape(wave=Wave(5.2, cents=18.0, loudness=0.14, after=0.15, growth=0.25)),
    # The hand opens and closes fast: loudness alone.
    "flutter": Shape(wave=Wave(7.0, loudness=0.42, after=0.04, growth=0.08)),
    # The tongue strikes and frees the note: sharp and at once loud.
    "slap": Shape(
        loudness=(Point(1.3), Point(1.25, 0.03), Point(1.0, 0.12)), attack=0.005, puff=0.4
    ),
    # The tongue draws off the chord and goes back on: a push, then it closes early.
    "pull": Shape(
        loudness=(Point(0.55), Point(1.25, 0.06), Point(0.95, 0.2)), sounds=0.8, puff=0.2,
        attack=0.01,
    ),
    "accent": Shape(loudness=(Point(1.35), Point(1.3, 0.06), Point(1.05, 0.18)), attack=0.01),
    "short": Shape(sounds=0.5, attack=0.01, release=0.02),
}  # fmt: skip


def shape_of(technique: str) -> Shape:
    """The shape of a technique; `PLAIN` for ""."""
    return SHAPES.get(technique, PLAIN)


def along(curve: Sequence[Point], length: float, plain: float) -> tuple[list[float], list[float]]:
    """Times in seconds (ascending) and values of a curve, in a note of `length` seconds.

    If the note is too short for the curve, points coincide and the last one counts.
    """
    if not curve:
        return [0.0], [plain]
    seconds: list[float] = []
    for point in curve:
        seconds.append(max(point.at(length), seconds[-1] if seconds else 0.0))
    return seconds, [point.value for point in curve]
