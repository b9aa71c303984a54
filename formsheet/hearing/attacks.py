"""When each note is struck, by short spectra; and the same pitch struck again.

A reed struck again is a short dip in its own partials. The change between spectra (the usual way
for plucked strings) does not show it: reeds start softly.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.spectra import RATE, Floats, Samples
from formsheet.music.pitch import hertz

_WINDOW, _HOP = 512, 88  # samples: 23 ms every 4 ms, half a frame of the decoding
STEP_S = _HOP / RATE
_BIN = RATE / _WINDOW
_PARTIALS = 8
_HIGHEST = 6000.0  # hertz
_HIGHEST_BIN = 140  # of what is looked at for dips of all that sounds
_FLOOR = 1e-3  # of the loudest partial's power: what is softer is not looked at
_CLEARLY = 4.0  # times that: what is louder counts
_OF_ALL = 0.7  # of the dip of all that sounds
_SHARE = 40.0  # per cent of the partials that may dip less
_BLOCK = 2048  # steps
_APART = 1.5  # bins: partials nearer than this are one
_AROUND = 0.07  # seconds on both sides in which a boundary is sought
_RISEN = 0.06  # of its power: then a note that follows silence has begun
_FALLEN = 0.1  # of its power: then a note has ended
_TAIL = 0.25  # seconds before its end in which a note's power is measured
_OVER = 2.5  # times the power that is left of the note before
_BESIDE = 0.04  # seconds on both sides of a dip
_INSIDE = 0.06  # seconds from a note's start and end in which no dip counts
_BACK_DB = 6.0  # a note struck again is back when it is so near to its loudest
_SPEAKS = 0.012  # seconds from the breath to a reed's tone, as far as it is heard here
DIP_DB = 4.0  # a deeper one is a new attack
_CLEAR_DIP_DB = 3.0  # where all that sounds dips so far, a bend begins
SHALLOW_DB = 2.0  # a deeper one may be one if it is on the beat


class Dip(NamedTuple):
    """A short dip inside a note."""

    at: float  # seconds: when the note is back
    depth: float  # decibels


class ShortSpectra:
    """The power in short windows, for times rather than for pitches."""

    def __init__(self, samples: Samples, tuning: float) -> None:
        self._samples: Floats = np.pad(samples.astype(np.float32), _WINDOW // 2)
        self._tuning = tuning

    @cached_property
    def _window(self) -> Floats:
        return np.hanning(_WINDOW + 1)[:-1].astype(np.float32)

    def power(self, first: int, last: int) -> Floats:
        """Power spectra of the steps `first` to `last` (of `STEP_S`)."""
        first = max(0, first)
        views = np.lib.stride_tricks.sliding_window_view(self._samples, _WINDOW)[::_HOP]
        found = np.abs(np.fft.rfft(views[first:last] * self._window, axis=1)) ** 2
        return np.asarray(found, dtype=np.float32)

    def bins(self, midi: Sequence[int]) -> set[int]:
        """The bins of the partials of some pitches."""
        found = set()
        for pitch in midi:
            lowest = hertz(pitch + self._tuning / 100)
            for number in range(1, _PARTIALS + 1):
                if number * lowest < _HIGHEST:
                    found.add(round(number * lowest / _BIN))
        return found

    def envelope(self, power: Floats, midi: Sequence[int], without: Sequence[int] = ()) -> Any:
        """The power of some pitches, without what they share with others."""
        return power[:, self._clear(midi, without)].sum(axis=1)

    def partials(self, power: Floats, midi: Sequence[int]) -> NDArray[Any]:
        """Decibels of the partials of some pitches that rise over the rest, a column each."""
        part = power[:, self._clear(midi, ())]
        part = np.asarray((part + np.pad(part, ((1, 0), (0, 0)))[:-1]) / 2, dtype=np.float32)
        means = part.mean(axis=0)
        least = _FLOOR * float(means.max(initial=0.0)) + 1e-12
        kept = part[:, means > _CLEARLY * least]
        return np.asarray(10 * np.log10(kept + least / 3))

    def _clear(self, midi: Sequence[int], without: Sequence[int]) -> list[int]:
        own, other = self.bins(midi), self.bins(without)
        clear = [each for each in own if all(abs(each - it) > _APART for it in other)]
        return sorted(clear or own)

    def level(self) -> NDArray[Any]:
        """Decibels of all that sounds, over the noise and against the loudest, at each step."""
        count = (len(self._samples) - _WINDOW) // _HOP + 1
        power = np.concatenate(
            [
                self.power(at, at + _BLOCK)[:, 2:_HIGHEST_BIN]
                for at in range(0, max(1, count), _BLOCK)
            ]
        )
        floor = np.percentile(power[::4], 10, axis=0).astype(np.float32)
        total = np.maximum(power - 3 * floor, 0).sum(axis=1)
        loud = float(np.percentile(total, 90)) + 1e-12
        return np.asarray(10 * np.log10(total / loud + 1e-4))


def depths(level: NDArray[Any]) -> NDArray[Any]:
    """How far each level (decibels) lies under what is within `_BESIDE` on both sides of it."""
    reach = round(_BESIDE / STEP_S)
    left, right = _running_most(level, reach), _running_most(level[::-1], reach)[::-1]
    return np.asarray(np.minimum(left, right) - level)


def boundary(
    short: ShortSpectra, at: float, before: Sequence[int], after: Sequence[int],
    earliest: float, latest: float,
) -> float:  # fmt: skip
    """When one note gives way to the next near a time; `before` is empty after a silence."""
    first = round(max(earliest, at - _AROUND) / STEP_S)
    last = round(min(latest, at + _AROUND) / STEP_S)
    if last - first < 3:
        return at
    power = short.power(first, last)
    new = short.envelope(power, after, before)
    top = int(np.argmax(new))
    if new[top] <= 0:
        return at
    if not before:
        under = np.flatnonzero(new[: top + 1] < _RISEN * new[top])
        return (first + (under[-1] + 1 if len(under) else 0)) * STEP_S - _SPEAKS
    # In a room the note before rings on: what counts is that the new one rises over it.
    still = float(np.percentile(new[: top + 1], 10))
    under = np.flatnonzero(new[: top + 1] < max(_RISEN * new[top], _OVER * still))
    return (first + (under[-1] + 1 if len(under) else 0)) * STEP_S - _SPEAKS


def deepest(every: NDArray[Any], at: float) -> float | None:
    """When all that sounds dips most near a time; None if it does not."""
    first = max(0, round((at - _AROUND) / STEP_S))
    part = every[first : round((at + _AROUND / 3) / STEP_S)]
    if not len(part) or part.max() < _CLEAR_DIP_DB:
        return None
    return (first + int(np.argmax(part))) * STEP_S


def last_of(short: ShortSpectra, midi: Sequence[int], start: float, end: float) -> float:
    """When a note that a silence follows has died away; it is heard from `start` to `end`."""
    first, last = round(max(start, end - _TAIL) / STEP_S), round((end + _AROUND) / STEP_S)
    level = short.envelope(short.power(first, last), midi)
    if len(level) < 2:
        return end
    over = np.flatnonzero(level > _FALLEN * float(level.max()))
    return float((first + over[-1] + 1) * STEP_S)


def dips(
    short: ShortSpectra, midi: Sequence[int], start: float, end: float, every: NDArray[Any]
) -> list[Dip]:
    """The dips inside a note, all deeper than `SHALLOW_DB`; `midi` are all pitches that it has.

    `every` are the dips of all that sounds: a bend that begins at its reed is seen in them alone.
    """
    first, last = round(start / STEP_S), round(end / STEP_S)
    beside, inside = round(_BESIDE / STEP_S), round(_INSIDE / STEP_S)
    if last - first <= 2 * inside:
        return []
    power = short.power(first, last)
    partials = short.partials(power, midi)
    if not partials.shape[1]:
        return []
    level = partials.mean(axis=1)
    count = len(level)
    # In a room each partial of a wavering tone comes and goes; all at once only if it is struck.
    each = np.stack([depths(column) for column in partials.T])
    depth = np.percentile(each, _SHARE, axis=0)
    if len(midi) > 1:
        part = every[first : first + count]
        depth = np.maximum(depth, _OF_ALL * np.pad(part, (0, count - len(part))))
    right = _running_most(level[::-1], beside)[::-1]
    found: list[Dip] = []
    at = inside
    while at < count - inside:
        if depth[at] < SHALLOW_DB:
            at += 1
            continue
        stop = at
        while stop < count - inside and depth[stop] >= SHALLOW_DB:
            stop += 1
        lowest = at + int(np.argmax(depth[at:stop]))
        back = lowest
        full = right[lowest] - _BACK_DB
        while back < count - 1 and level[back] < full and level[back + 1] >= level[back]:
            back += 1
        dip = Dip(start + back * STEP_S, float(depth[lowest]))
        if found and dip.at - found[-1].at < _INSIDE:
            found[-1] = max(found[-1], dip, key=lambda each: each.depth)
        else:
            found.append(dip)
        at = stop + 1
    return found


def _running_most(level: NDArray[Any], reach: int) -> NDArray[Any]:
    """The most of each value and those before it, within reach."""
    padded = np.concatenate([np.full(reach, -np.inf), level])
    return np.asarray(np.lib.stride_tricks.sliding_window_view(padded, reach + 1).max(axis=1))
