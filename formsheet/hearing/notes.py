"""From samples and actions to notes in seconds."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.actions import Action
from formsheet.hearing.attacks import (
    DIP_DB,
    STEP_S,
    Dip,
    ShortSpectra,
    boundary,
    deepest,
    dips,
    last_of,
)
from formsheet.hearing.attacks import depths as depths_of
from formsheet.hearing.decoding import (
    FRAME_S,
    SILENCE,
    Segment,
    change_costs,
    decoded,
    dip_costs,
    doubled,
)
from formsheet.hearing.evidence import A_NOTE, NO_PITCH, Residuals, costs, glide_costs
from formsheet.hearing.intonation import cents_off, tuning_of
from formsheet.hearing.spectra import Floats, Samples, resampled, spectra
from formsheet.music.pitch import OCTAVE

_BETTER = 0.06  # mean cost by which another action takes a piece of a note
_CLOSE = 0.03  # mean cost by which a second-best action is still possible
_LOUD_DB, _QUIET_DB = -16.0, -30.0  # against the loudest: what sounds, what is silence
_STILL = 0.35  # cost of silence where it is still
_LEAST_ALL_DB = 2.0  # by which all that sounds dips where a note is struck
_NEAR_S = 0.045  # seconds
_NO_NOTE_S = 0.08  # a shorter piece is no note between two
_GLIDE_S = 0.125  # a bend may be so long on its way
_ARRIVING_S = 0.13  # seconds that a note may take to arrive


class Doubt(Enum):
    """What is not sure about a note."""

    PITCH = "pitch"  # another pitch is nearly as likely
    OCTAVE = "octave"  # an octave split is heard as its lower note
    AGAIN = "again"  # perhaps struck twice
    ONCE = "once"  # perhaps one note with the one before
    PLACE = "place"  # the same pitch is in another hole
    ATTACK = "attack"  # it lies between two places of the grid
    LENGTH = "length"  # it ends between two places of the grid
    SHORT = "short"  # so short that it may be no note


@dataclass(frozen=True)
class HeardNote:
    """A note as it was heard. Times are in seconds from the start of the recording."""

    action: Action
    start: float
    end: float
    cents: float | None = None  # above its pitch, the recording's tuning left out; None: unclear
    second: Action | None = None  # what else it may be
    dip: float = 0.0  # decibels of the dip before it, if it is the same pitch struck again
    dips: tuple[Dip, ...] = ()  # dips inside it that are not deep enough
    shake: Action | None = None  # it alternates with this one
    doubts: frozenset[Doubt] = field(default_factory=frozenset)

    @property
    def midi(self) -> tuple[int, ...]:
        """Its pitches."""
        return self.action.midi


@dataclass(frozen=True)
class Listening:
    """A recording with all that is worked out once."""

    samples: Floats  # at `spectra.RATE`
    rows: Floats
    loudness: Floats
    tuning: float  # cents above A4 = 440 Hz

    @property
    def seconds(self) -> float:
        """Its length."""
        return len(self.samples) / 22_050


def listen(samples: Samples, rate: int) -> Listening:
    """Spectra and tuning of mono samples from -1 to 1."""
    plain = resampled(samples, rate)
    heard = spectra(plain)
    return Listening(plain, heard.rows, heard.loudness, tuning_of(heard))


@dataclass(frozen=True)
class Heard:
    """The notes of a recording, and the cost of each action in each frame."""

    notes: tuple[HeardNote, ...]
    frames: Floats
    actions: tuple[Action, ...]

    def cost(self, midi: tuple[int, ...], start: float, end: float) -> float:
        """The mean cost of some pitches in a stretch of seconds; 1 where no action has them."""
        at = next((at for at, action in enumerate(self.actions) if action.midi == midi), None)
        part = self.frames[round(start / FRAME_S) : max(round(end / FRAME_S), 1)]
        return float(part[:, at].mean()) if at is not None and len(part) else 1.0


def notes_of(
    heard: Listening, actions: Sequence[Action], *, ignore: Collection[tuple[float, float]] = ()
) -> list[HeardNote]:
    """The notes of a recording; in the times `ignore` (seconds) nothing is heard."""
    return list(weighed(heard, actions, ignore=ignore).notes)


def weighed(
    heard: Listening, actions: Sequence[Action], *, ignore: Collection[tuple[float, float]] = ()
) -> Heard:
    """As `notes_of`, with what each action costs in each frame."""
    lowest = min(action.midi[0] for action in actions) - 1
    highest = max(max(action.midi[-1], action.reed) for action in actions) + 1
    residuals = Residuals(heard.rows, lowest, highest, heard.tuning)
    each = costs(residuals, heard.rows, actions)
    for start, end in ignore:
        first, last = round(start / FRAME_S / 2), round(end / FRAME_S / 2)
        each[first:last] = 1.0
    frames = doubled(each)
    short = ShortSpectra(heard.samples, heard.tuning)
    level = short.level()
    depths = depths_of(level)
    crossing = dip_costs(depths, len(frames)).astype(np.float32)
    glides = {
        at: doubled(glide_costs(residuals, action)) + crossing
        for at, action in enumerate(actions)
        if action.bent
    }
    change = change_costs(depths, len(frames))
    segments = decoded(frames, _silence(level, len(frames)), glides, change)
    notes = _timed(segments, actions, short, depths, heard.seconds)
    notes = _arrived([part for note in notes for part in _struck(note, short, depths)], depths)
    notes = [_weighed(note, residuals, frames, actions) for note in notes]
    return Heard(tuple(_glided(notes)), frames, tuple(actions))


def _silence(level: NDArray[Any], frames: int) -> Floats:
    """The cost of silence in each frame: less where it is quiet (`level` in decibels)."""
    padded = np.pad(level, (0, max(0, 2 * frames - len(level))), mode="edge")[: 2 * frames : 2]
    quiet = np.clip((_LOUD_DB - padded) / (_LOUD_DB - _QUIET_DB), 0, 1)
    return np.asarray(NO_PITCH - (NO_PITCH - _STILL) * quiet, dtype=np.float32)


def _timed(
    segments: Sequence[Segment], actions: Sequence[Action], short: ShortSpectra,
    depths: NDArray[Any], seconds: float,
) -> list[HeardNote]:  # fmt: skip
    """The segments that sound, their boundaries by short spectra."""
    edges = [segments[0].start * FRAME_S] if segments else []
    for before, after in pairwise(segments):
        old = actions[before.action].midi if before.action != SILENCE else ()
        new = actions[after.action].midi if after.action != SILENCE else ()
        at = after.start * FRAME_S
        middles = (
            (before.start + before.end) * FRAME_S / 2,
            (after.start + after.end) * FRAME_S / 2,
        )
        if not new:
            edges.append(last_of(short, old, before.start * FRAME_S, at))
            continue
        if old and actions[after.action].bent and (dip := deepest(depths, at)):
            edges.append(min(max(dip, middles[0]), middles[1]))
            continue
        reeds = (actions[after.action].reed,) if actions[after.action].bent else ()
        edges.append(boundary(short, at, old, (*new, *(r for r in reeds if (r,) != old)), *middles))
    edges.append(min(seconds, segments[-1].end * FRAME_S) if segments else 0.0)
    return [
        HeardNote(actions[each.action], start, max(end, start + FRAME_S))
        for each, start, end in zip(segments, edges, edges[1:], strict=False)
        if each.action != SILENCE
    ]


def _struck(note: HeardNote, short: ShortSpectra, depths: NDArray[Any]) -> list[HeardNote]:
    """A note, or several where it is struck again: its partials dip, and all that sounds does."""
    pitches = (*note.midi, *range(note.midi[0] + 1, note.action.reed + 1))
    found = dips(short, pitches, note.start, note.end, depths)
    found = [dip for dip in found if _dip_near(depths, dip.at) >= _LEAST_ALL_DB]
    deep = [dip for dip in found if dip.depth >= DIP_DB]
    parts = []
    starts = [Dip(note.start, 0.0), *deep]
    for at, dip in enumerate(starts):
        end = starts[at + 1].at if at + 1 < len(starts) else note.end
        inside = tuple(each for each in found if dip.at < each.at < end and each not in deep)
        parts.append(replace(note, start=dip.at, end=end, dip=dip.depth, dips=inside))
    return parts


def _dip_near(depths: NDArray[Any], at: float, reach: float = _NEAR_S) -> float:
    """The deepest dip of all that sounds near a time, in decibels."""
    first = max(0, round((at - reach) / STEP_S))
    return float(depths[first : round((at + reach) / STEP_S) + 1].max(initial=0.0))


def _arrived(notes: Sequence[HeardNote], depths: NDArray[Any]) -> list[HeardNote]:
    """The notes, where one that begins was taken for the one before struck again.

    Its dip is there, and none where its pitch is heard at last: as in a bend on its way, or while
    the note before dies away.
    """
    found: list[HeardNote] = []
    for note in notes:
        before = found[-1] if found else None
        if (
            before
            and before.dip
            and not note.dip
            and note.start - before.end < FRAME_S
            and (
                before.end - before.start < _NO_NOTE_S
                or (
                    before.end - before.start < _ARRIVING_S
                    and _dip_near(depths, note.start, 0.025) < _LEAST_ALL_DB
                )
            )
        ):
            found[-1] = replace(note, start=before.start)
        else:
            found.append(note)
    return found


def _octave_on(split: tuple[int, ...], midi: tuple[int, ...]) -> bool:
    """Whether the first is an octave split whose lower note is the second."""
    return split[:1] == midi and split[1] - split[0] == OCTAVE


def _glided(notes: Sequence[HeardNote]) -> list[HeardNote]:
    """The notes, where a bend on its way was taken for a short note of its own."""
    found: list[HeardNote] = []
    for note in notes:
        before = found[-1] if found else None
        if (
            before
            and note.action.bent
            and before.action.single
            and note.midi[0] < before.midi[0] <= note.action.reed
            and before.end - before.start < _GLIDE_S
            and note.start - before.end < FRAME_S
        ):
            found[-1] = replace(note, start=before.start, dip=0.0)
        else:
            found.append(note)
    return found


def _weighed(
    note: HeardNote, residuals: Residuals, frames: Floats, actions: Sequence[Action]
) -> HeardNote:
    """A note with its cents and what else it may be."""
    first, last = round(note.start / FRAME_S), max(round(note.end / FRAME_S), 1)
    middle = frames[first + (last - first) // 3 : last] if last - first > 3 else frames[first:last]
    doubts: set[Doubt] = set()
    second = None
    if len(middle):
        means = middle.mean(axis=0)
        order = np.argsort(means)
        own = next(at for at, action in enumerate(actions) if action is note.action)
        best = int(order[0])
        if means[best] < means[own] - _BETTER and actions[best].single:
            note, own = replace(note, action=actions[best]), best
        other = int(order[0]) if order[0] != own else int(order[1]) if len(order) > 1 else own
        if other != own and means[other] < means[own] + _CLOSE:
            second = actions[other]
            doubts.add(Doubt.PITCH)
        splits = (
            means[at]
            for at, action in enumerate(actions)
            if len(action.midi) == 2 and _octave_on(action.midi, actions[own].midi)
        )
        if min(splits, default=NO_PITCH) < means[own] + A_NOTE:
            doubts.add(Doubt.OCTAVE)
    cents = (
        cents_off(residuals, note.midi[0], first // 2, last // 2) if note.action.single else None
    )
    return replace(note, cents=cents, second=second, doubts=frozenset(doubts))
