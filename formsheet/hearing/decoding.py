"""The best row of actions and silences through all frames: dynamic programming (Viterbi, 1967).

A segment lasts a few frames at least. While a bend begins, any pitch between it and its reed will
do. Frames are 8 ms: two to a spectrum.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.attacks import SHALLOW_DB
from formsheet.hearing.spectra import HOP, RATE, Floats

FRAME_S = HOP / RATE / 2
_SHORTEST = 6  # frames
_CHANGE = 2.0  # cost of each segment
_STRUCK = 1.6  # less where all that sounds dips, as where a note is struck
_DEEP_DB = 4.5  # as deep a dip is a sure one
_DIP_REACH = 3  # frames
#: How long a bend may take to arrive, in frames, and what it costs.
_GLIDE_STEP = 2  # frames: bends arrive at every second one
_GLIDES = ((6, 0.1), (12, 0.2), (18, 0.4))
SILENCE = -1


class Segment(NamedTuple):
    """A stretch in which one action sounds, or none."""

    action: int  # `SILENCE`, or an index of the actions
    start: int  # frames
    end: int
    cost: float  # mean cost a frame
    glide: int = 0  # frames in which a bend arrives


def doubled(costs: Floats) -> Floats:
    """Costs of spectra as costs of frames: one more between each two."""
    between = (costs[:-1] + costs[1:]) / 2
    rows = np.empty((2 * len(costs) - 1, *costs.shape[1:]), dtype=np.float32)
    rows[::2], rows[1::2] = costs, between
    return rows


def change_costs(depths: NDArray[Any], frames: int) -> NDArray[Any]:
    """What it costs to begin a segment at each frame; `depths` in decibels, two to a frame."""
    reach = 2 * _DIP_REACH
    padded = np.pad(depths, (reach, reach + 2 * frames))[: 2 * frames + 2 * reach + 1]
    near = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1).max(axis=1)
    return np.asarray(_CHANGE - _STRUCK * np.clip(near[::2][: frames + 1] / _DEEP_DB, 0, 1))


def dip_costs(depths: NDArray[Any], frames: int) -> NDArray[Any]:
    """What it costs a bend to be on its way through each frame: something at a deep dip."""
    padded = np.pad(depths, (1, 2 * frames + 1))
    here = padded[1:-1]
    top = (here >= padded[:-2]) & (here > padded[2:]) & (here > SHALLOW_DB)
    costs = np.where(top, _STRUCK * np.clip(here / _DEEP_DB, 0, 1), 0.0)
    return np.maximum(costs[: 2 * frames : 2], costs[1 : 2 * frames + 1 : 2])


def decoded(
    costs: Floats, silence: Floats, glides: dict[int, Floats], change: NDArray[Any]
) -> list[Segment]:
    """The segments, silences included, that cost least together.

    `costs` is frames by actions; `glides` has the cost of a bend under way, by its action;
    `change` what it costs to begin a segment at a frame.
    """
    actions = costs.shape[1]
    frames = len(costs)
    states = np.concatenate([costs, silence[:, None]], axis=1)
    sums = np.concatenate([np.zeros((1, actions + 1)), np.cumsum(states, axis=0, dtype=float)])
    bent = np.array(sorted(glides), dtype=int)
    bent_sums = np.stack(
        [np.concatenate([[0.0], np.cumsum(glides[at], dtype=float)]) for at in bent], axis=1
    ) if len(bent) else np.zeros((frames + 1, 0))  # fmt: skip
    value = np.full(actions + 1, np.inf)
    best = np.empty(frames + 1)  # best cost of all up to a frame, and the state that ends there
    ends = np.empty(frames + 1, dtype=int)
    best[0], ends[0] = 0.0, -1
    begun = np.empty((frames + 1, actions + 1), dtype=np.int32)  # where the segment began
    arrived = np.zeros((frames + 1, actions + 1), dtype=np.int16)
    start = np.zeros(actions + 1, dtype=np.int32)
    glide = np.zeros(actions + 1, dtype=np.int16)
    best[1:] = np.inf
    ends[1:] = -1
    for t in range(1, frames + 1):
        value += states[t - 1]
        first = t - _SHORTEST
        if first >= 0 and np.isfinite(best[first]):
            new = best[first] + change[first] + sums[t] - sums[first]
            better = new < value
            value = np.where(better, new, value)
            start[better] = first
            glide[better] = 0
        for length, price in _GLIDES if t % _GLIDE_STEP == 0 else ():
            first = t - length - _SHORTEST
            if first < 0 or not len(bent) or not np.isfinite(best[first]):
                continue
            new = best[first] + change[first] + price + bent_sums[first + length] - bent_sums[first]
            new = new + sums[t, bent] - sums[first + length, bent]
            better = new < value[bent]
            which = bent[better]
            value[which] = new[better]
            start[which] = first
            glide[which] = length
        begun[t], arrived[t] = start, glide
        at = int(np.argmin(value))
        best[t], ends[t] = value[at], at
    return _traced(frames, ends, begun, arrived, sums)


def _traced(
    frames: int, ends: NDArray[Any], begun: NDArray[Any], arrived: NDArray[Any], sums: NDArray[Any]
) -> list[Segment]:
    segments: list[Segment] = []
    t = frames
    while t > 0:
        state = int(ends[t])
        start = int(begun[t, state])
        mean = float((sums[t, state] - sums[start, state]) / max(1, t - start))
        action = SILENCE if state == sums.shape[1] - 1 else state
        segments.append(Segment(action, start, t, mean, int(arrived[t, state])))
        t = start
    return _joined(segments[::-1])


def _joined(segments: Sequence[Segment]) -> list[Segment]:
    """Neighbours with the same action as one."""
    found: list[Segment] = []
    for each in segments:
        if found and found[-1].action == each.action:
            found[-1] = found[-1]._replace(end=each.end)
        else:
            found.append(each)
    return found
