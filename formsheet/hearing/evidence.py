"""How badly each action explains each spectrum: a small least squares for each, without negatives.

A fit over all reeds at once would explain a chord by reeds that no mouth can reach together.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.actions import Action
from formsheet.hearing.partials import SLOPES, templates
from formsheet.hearing.spectra import Floats
from formsheet.music.pitch import OCTAVE

_TUNED_BY = 5  # cents: templates are made for tunings so far apart, and kept
STEP_CENTS = 25  # of the pitches that are tried
A_NOTE = 0.04  # cost of each reed beside the residual
NO_PITCH = 0.75  # a residual that is as good as none
_OVERBEND = 0.06  # they are rare
#: Cost of a pitch that is off by so many steps of `STEP_CENTS`: of a natural note, of a bend.
_OFF_NATURAL = {-2: 0.03, -1: 0.005, 0: 0.0, 1: 0.005, 2: 0.03}
_OFF_BENT = {-2: 0.03, -1: 0.005, 0: 0.0, 1: 0.005, 2: 0.03}
_ALMOST_SAME = 2e-3  # high notes have few partials: their templates are nearly the same
#: The upper note of an octave split only strengthens partials of the lower one: it is hardly told
#: from a single note, and single notes are more.
_OCTAVE_SPLIT = 0.05
_SWEEPS = 12  # of the coordinate descent for chords


class Residuals:
    """The share of each spectrum that a single note leaves unexplained, by pitch."""

    def __init__(self, rows: Floats, lowest: int, highest: int, tuning: float) -> None:
        self.tuning = _TUNED_BY * round(tuning / _TUNED_BY)  # cents above A4 = 440 Hz
        self.beside = self.tuning - tuning  # cents by which that is off
        self.first = lowest * 100 - 100  # nominal cents of the first column
        self.cents = np.arange(self.first, highest * 100 + 101, STEP_CENTS)
        self.values = _single_residuals(rows, self.cents + self.tuning)

    def column(self, midi: float) -> int:
        """The column of a nominal pitch."""
        return round((midi * 100 - self.first) / STEP_CENTS)

    def around(self, midi: int, off: dict[int, float]) -> Floats:
        """The least residual at a pitch and beside it, with what each step aside costs."""
        centre = self.column(midi)
        columns = [self.values[:, centre + step] + np.float32(cost) for step, cost in off.items()]
        return np.asarray(np.min(columns, axis=0))

    def between(self, low: int, high: int) -> Floats:
        """The least residual of all pitches between two."""
        return np.asarray(self.values[:, self.column(low) : self.column(high) + 1].min(axis=1))


def costs(residuals: Residuals, rows: Floats, actions: Sequence[Action]) -> Floats:
    """The cost of each action in each frame: residual, and something for each reed."""
    found = np.empty((len(rows), len(actions)), dtype=np.float32)
    for at, action in enumerate(actions):
        if action.single:
            off = _OFF_BENT if action.bent or action.overbend else _OFF_NATURAL
            left = residuals.around(action.midi[0], off)
            found[:, at] = left + A_NOTE + (_OVERBEND if action.overbend else 0.0)
        else:
            left = _chord_residual(rows, [midi * 100 + residuals.tuning for midi in action.midi])
            octave = len({midi % OCTAVE for midi in action.midi}) == 1
            found[:, at] = left + A_NOTE * len(action.midi) + (_OCTAVE_SPLIT if octave else 0.0)
    return found


def _single_residuals(rows: Floats, cents: NDArray[np.int_]) -> Floats:
    """Exact: of the few templates of a pitch each selection is tried."""
    shapes = templates(cents)
    gram = np.einsum("pib,pjb->pij", shapes, shapes) + _ALMOST_SAME * np.eye(len(SLOPES))
    fits = [rows @ shapes[:, slope].T for slope in range(len(SLOPES))]
    best = np.zeros_like(fits[0])
    for size in range(1, len(SLOPES) + 1):
        for chosen in combinations(range(len(SLOPES)), size):
            picked = list(chosen)
            inverse = np.linalg.inv(gram[:, picked][:, :, picked]).astype(np.float32)
            gain, allowed = np.zeros_like(best), np.ones(best.shape, dtype=bool)
            for at, slope in enumerate(picked):  # sums written out: many times as fast as einsum
                weight = sum(fits[each] * inverse[:, n, at] for n, each in enumerate(picked))
                allowed &= weight >= 0
                gain += weight * fits[slope]
            np.maximum(best, np.where(allowed, gain, 0), out=best)
    return np.asarray(1 - best)


def _chord_residual(rows: Floats, cents: Sequence[int]) -> Floats:
    shapes = templates(np.array(cents))[:, ::2].reshape(2 * len(cents), -1)
    gram = shapes @ shapes.T
    fits = rows @ shapes.T
    weights = np.zeros_like(fits)
    for _ in range(_SWEEPS):
        for at in range(len(shapes)):
            rest = fits[:, at] - weights @ gram[at] + weights[:, at] * gram[at, at]
            weights[:, at] = np.maximum(rest / gram[at, at], 0)
    explained = 2 * np.einsum("ti,ti->t", weights, fits)
    explained -= np.einsum("ti,ij,tj->t", weights, gram, weights)
    return np.asarray(1 - explained, dtype=np.float32)


def glide_costs(residuals: Residuals, action: Action) -> Floats:
    """The cost of a bend that is on its way from its reed."""
    return residuals.between(action.midi[0], action.reed) + np.float32(A_NOTE)
