"""Attacks onto the grid of beats: each beat divided in two, four or three, as fits best.

Dynamic programming over the notes; then beat and phase are fitted to what was found, and again.
Places are in beats as they are written: eighths even, whatever the feel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from formsheet.music.swing import Feel

F = Fraction
_NOTE_SD = 0.022  # seconds: of a note against the one before
_BEAT_SD = 0.055  # seconds: of a note against the beat
_ZERO_SD, _LOOSE_ZERO_SD = 0.01, 0.2  # seconds: of a zero that is known, of one that is not
_BEAT_SHARE, _DRIFT_SHARE = 0.03, 0.003  # of a beat: how far a take leaves its tempo
_SWUNG = 0.5  # what a beat in sixteenths costs more in swing
_SIXTEENTHS_S, _HURRY = 0.65, 10.0  # ... and for each second that the beat is shorter
_ROUNDS = 4
_NEARLY, _NEAR_S = 0.5, 0.025  # of the way to another place, and seconds: from there it is a doubt
_SQUEEZE = 1e6


class _Place(NamedTuple):
    mode: int
    written: Fraction  # in the beat
    sounds: float


class _Mode(NamedTuple):
    places: tuple[Fraction, ...]
    cost: float  # of a beat that is divided so
    swings: bool = False


_SIMPLE = (
    _Mode((F(0), F(1, 2)), 0.0, swings=True),
    _Mode((F(0), F(1, 4), F(1, 2), F(3, 4)), 2.0),
    _Mode((F(0), F(1, 3), F(2, 3)), 1.5),
)
_COMPOUND = (
    _Mode((F(0), F(1, 3), F(2, 3)), 0.0),
    _Mode(tuple(F(step, 6) for step in range(6)), 1.5),
)


@dataclass(frozen=True)
class Grid:
    """Where beats lie in the recording: seconds = zero + beat * place + drift * place squared."""

    zero: float
    beat: float
    drift: float
    places: tuple[Fraction, ...]  # of each attack
    unsure: tuple[bool, ...]
    cost: float  # mean of a note

    def seconds(self, place: float) -> float:
        """When a place (as it sounds) is."""
        return self.zero + self.beat * place + self.drift * place * place

    def place(self, seconds: float) -> float:
        """The place of a time, as it sounds."""
        at = (seconds - self.zero) / self.beat
        for _ in range(3):
            at = (seconds - self.zero - self.drift * at * at) / self.beat
        return at


def fitted(
    attacks: Sequence[float], zero: float, beat: float, feel: Feel, compound: bool, *,
    rounds: int = _ROUNDS, fixed: bool = False,
) -> Grid:  # fmt: skip
    """The grid through some attacks (seconds, ascending), begun from a zero and a beat.

    `fixed`: zero and beat are known well, as from a count-in.
    """
    grid = Grid(zero, beat, 0.0, (), (), 0.0)
    for number in range(rounds):
        places, unsure, cost = _placed(
            attacks, grid, feel, compound, wide=number == 0 and not fixed
        )
        found = Grid(grid.zero, grid.beat, grid.drift, places, unsure, cost)
        if number and found.places == grid.places:
            return found
        grid = found
        if number < rounds - 1:
            grid = _refitted(attacks, found, feel, compound, zero if fixed else None, beat)
    return grid


def sounding(places: Sequence[Fraction], feel: Feel, compound: bool) -> list[float]:
    """Written places as they sound: the half of a beat that is not divided further swings."""
    divided = {place // 1 for place in places if place % 1 not in (0, F(1, 2))}
    return [
        float(place // 1 + feel.share)
        if place % 1 == F(1, 2) and not compound and place // 1 not in divided
        else float(place)
        for place in places
    ]


def _refitted(
    attacks: Sequence[float], grid: Grid, feel: Feel, compound: bool, zero: float | None,
    nominal: float,
) -> Grid:  # fmt: skip
    at = np.array(sounding(grid.places, feel, compound))
    times = np.asarray(attacks)
    # Beat and drift are held near what was given, the zero too where it is known.
    rows = [np.ones_like(at), at, at * at]
    design = np.stack(rows, axis=1)
    zero_sd = _ZERO_SD if zero is not None else _LOOSE_ZERO_SD
    prior = np.diag([1 / zero_sd, 1 / (_BEAT_SHARE * nominal), 1 / (_DRIFT_SHARE * nominal)])
    goal = np.array([zero if zero is not None else grid.zero, nominal, 0.0])
    weights = 1 / _NOTE_SD
    left = np.concatenate([design * weights, prior])
    right = np.concatenate([times * weights, prior @ goal])
    solved, *_ = np.linalg.lstsq(left, right, rcond=None)
    found, its_beat, drift = (float(each) for each in solved)
    return Grid(found, its_beat, drift, grid.places, grid.unsure, grid.cost)


def _candidates(feel: Feel, compound: bool) -> list[_Place]:
    modes = _COMPOUND if compound else _SIMPLE
    found = []
    for number, mode in enumerate(modes):
        for written in mode.places:
            swung = mode.swings and written == F(1, 2)
            found.append(_Place(number, written, float(feel.share if swung else written)))
    return found


def _placed(
    attacks: Sequence[float], grid: Grid, feel: Feel, compound: bool, *, wide: bool
) -> tuple[tuple[Fraction, ...], tuple[bool, ...], float]:
    modes = _COMPOUND if compound else _SIMPLE
    each = _candidates(feel, compound)
    mode_of = np.array([place.mode for place in each] * 3)
    sounds = np.array([place.sounds for place in each] * 3)
    rank = np.array([float(place.written) for place in each] * 3)
    # The last sixteenth of a beat lies near a swung eighth, and the more so the shorter the beat.
    hurried = _SWUNG + max(0.0, _SIXTEENTHS_S - grid.beat) * _HURRY if feel.swings else 0.0
    mode_cost = np.array([m.cost + (hurried if len(m.places) > 3 else 0) for m in modes])[mode_of]
    note_sd, beat_sd = _NOTE_SD, _BEAT_SD * (1.6 if wide else 1.0)
    columns = len(each)
    first_beats: list[int] = []
    total: NDArray[Any] | None = None
    ways: list[NDArray[Any]] = []
    before: tuple[NDArray[Any], NDArray[Any], NDArray[Any]] | None = None
    for attack in attacks:
        middle = int(np.floor(grid.place(attack)))
        beats = np.repeat([middle - 1, middle, middle + 1], columns)
        off = np.array([attack - grid.seconds(at) for at in beats + sounds])
        own = 0.5 * (off / beat_sd) ** 2
        at_rank = beats + rank
        if before is None or total is None:
            total = own + mode_cost + 0.5 * (off / note_sd) ** 2 * 0.1
        else:
            old_beats, old_rank, old_off = before
            same = old_beats[:, None] == beats[None, :]
            step = 0.5 * ((off[None, :] - old_off[:, None]) / (note_sd * 1.4)) ** 2
            step = step + np.where(same, 0.0, mode_cost[None, :])
            wrong = (at_rank[None, :] <= old_rank[:, None] + 1e-9) | (
                same & (mode_of[None, :] != mode_of[:, None])
            )
            reached = total[:, None] + step + np.where(wrong, _SQUEEZE, 0.0)
            ways.append(reached.argmin(axis=0))
            total = reached.min(axis=0) + own
        first_beats.append(middle - 1)
        before = (beats, at_rank, off)
    assert total is not None
    at = int(np.argmin(total))
    cost = float(total[at]) / len(attacks)
    path = [at]
    for way in reversed(ways):
        path.append(int(way[path[-1]]))
    path.reverse()
    places, unsure = [], []
    for note, at in enumerate(path):
        places.append(first_beats[note] + at // columns + each[at % columns].written)
        unsure.append(_between(attacks[note], grid, first_beats[note], at, columns, sounds, rank))
    return tuple(places), tuple(unsure), cost


def _between(
    attack: float, grid: Grid, first_beat: int, at: int, columns: int, sounds: NDArray[Any],
    rank: NDArray[Any],
) -> bool:  # fmt: skip
    """Whether an attack lies nearly as near to another place as to its own."""
    beats = first_beat + np.arange(3 * columns) // columns
    off = np.array([abs(attack - grid.seconds(place)) for place in beats + sounds])
    other = np.abs(beats + rank - (beats[at] + rank[at])) > 1e-6
    return bool(off[at] > _NEARLY * off[other].min() and off[at] > _NEAR_S)
