"""Recordings of made licks, under conditions."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from formsheet.hearing.clicks import count_in_samples
from tests.hearing import conditions
from tests.hearing.made_licks import MadeLick
from tests.hearing.performed import (
    FONTS,
    RATE,
    SILENT_ABOVE,
    PlayedNote,
    performance,
    rendered,
)

Array = np.ndarray[Any, np.dtype[np.float64]]
_CLICK_BEFORE_S = 0.25  # of silence in what `count_in_samples` gives
_CLICK_LEVEL = 0.6  # its peak against that of the harp

#: By name: whether a human plays it, and what is done to the recording.
CONDITIONS: dict[str, tuple[bool, Callable[[Array, int], Array]]] = {
    "clean": (False, lambda samples, seed: samples),
    "human": (True, lambda samples, seed: samples),
    "noise 20 dB": (True, lambda samples, seed: conditions.noise(samples, 20, seed)),
    "breath": (True, conditions.breath),
    "phone": (True, lambda samples, seed: conditions.phone(samples)),
    "noise 10 dB": (True, lambda samples, seed: conditions.noise(samples, 10, seed)),
    "room": (True, conditions.room),
    "phone in a room": (
        True, lambda samples, seed: conditions.phone(conditions.room(samples, seed)),
    ),
}  # fmt: skip
_HUMAN_A4 = 443.0


@dataclass(frozen=True)
class Take:
    """A lick as it is played and recorded, with the count-in before it."""

    lick: MadeLick
    played: tuple[PlayedNote, ...]
    samples: Array
    before: float  # seconds to the first bar line


def takes(licks: Sequence[MadeLick], *, human: bool, clicks: bool = True) -> list[Take]:
    """The licks played and recorded, by two sound fonts in turn; no condition yet."""
    found: dict[int, Take] = {}
    by_font: dict[str, list[tuple[int, MadeLick]]] = {font: [] for font in FONTS}
    names = list(FONTS)
    for number, lick in enumerate(licks):
        highest = max(midi for note in lick.notes for midi in note.midi) + 2
        usable = [font for font in names if highest <= SILENT_ABOVE[font]] or names[-1:]
        by_font[usable[number % len(usable)]].append((number, lick))
    for font, numbered in by_font.items():
        if not numbered:
            continue
        played = [performance(lick, human=human) for _, lick in numbered]
        before = [_CLICK_BEFORE_S + lick.meter.beats * 60 / lick.tempo for _, lick in numbered]
        sounds = rendered(played, font, before, _HUMAN_A4 if human else 440.0)
        rows = zip(numbered, played, sounds, before, strict=True)
        for (number, lick), notes, sound, lead in rows:
            most = float(np.max(np.abs(sound))) or 1.0
            sound = sound * (0.5 / most)
            if clicks:
                count = count_in_samples(lick.tempo, lick.meter, 1)
                count = count * (0.5 * _CLICK_LEVEL / float(np.max(np.abs(count))))
                count = count[: len(sound)]
                sound[: len(count)] += count
            found[number] = Take(lick, tuple(notes), sound, lead)
    return [found[number] for number in range(len(licks))]


def under(condition: str, clean: Sequence[Take], human: Sequence[Take]) -> Iterator[Take]:
    """The takes under a condition."""
    played, change = CONDITIONS[condition]
    for take in human if played else clean:
        samples = change(take.samples, take.lick.seed)
        yield Take(take.lick, take.played, samples, take.before)


__all__ = ["CONDITIONS", "RATE", "Take", "takes", "under"]
