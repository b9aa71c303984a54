"""Pitch, loudness and brightness along a note, computed from the shape of its technique."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor
from typing import TYPE_CHECKING

from formsheet.sound.events import Event
from formsheet.sound.shapes import Curve, Shape, along, shape_of

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of a note in which the same reeds sound: the whole note unless it is a shake."""

    start: float  # seconds from the note's start
    length: float  # seconds
    midi: tuple[int, ...]


def sounding(event: Event, seconds_a_beat: float) -> float:
    """How long a note sounds, in seconds."""
    return event.length * seconds_a_beat * shape_of(event.technique).sounds


def stretches(event: Event, seconds_a_beat: float) -> Iterator[Stretch]:
    """The stretches of a note in order; those of a shake have equal lengths."""
    length = sounding(event, seconds_a_beat)
    shape = shape_of(event.technique)
    turns = max(1, floor(length * shape.turns)) if shape.turns and event.neighbour else 1
    for turn in range(turns):
        midi = event.neighbour if turn % 2 else event.midi
        yield Stretch(turn * length / turns, length / turns, midi)


def cents(shape: Shape, at: Samples, length: float) -> Samples:
    """Cents from the written pitch at times `at`, in a note of `length` seconds."""
    return _curve(shape.pitch, at, length, 0.0) + _sway(shape, at, "cents")


def loudness(shape: Shape, at: Samples, length: float) -> Samples:
    """Loudness at times `at`, relative to the note's own, which is 1."""
    return _curve(shape.loudness, at, length, 1.0) * (1 + _sway(shape, at, "loudness"))


def brightness(shape: Shape, at: Samples, length: float) -> Samples:
    """Brightness at times `at`: the share of the upper partials, 0 to 1."""
    return _curve(shape.brightness, at, length, 1.0)


def _curve(curve: Curve, at: Samples, length: float, plain: float) -> Samples:
    import numpy as np

    return np.asarray(np.interp(at, *along(curve, length, plain)))


def _sway(shape: Shape, at: Samples, what: str) -> Samples:
    """The wave of a shape, in pitch (cents) or in loudness."""
    import numpy as np

    wave = shape.wave
    if wave is None:
        return np.zeros(len(at))
    since = np.maximum(0.0, at - wave.after)
    depth = wave.cents if what == "cents" else wave.loudness
    grown = np.minimum(1.0, since / wave.growth)
    return np.asarray(depth * grown * np.sin(2 * np.pi * wave.hertz * since))
