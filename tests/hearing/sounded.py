"""Recordings made with our own sounds: a smoke test, for the guide tone is no harp."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from formsheet.music.rhythm import METERS
from formsheet.sound.count_in import click_events
from formsheet.sound.events import Event
from formsheet.sound.mix import samples_of
from formsheet.sound.takes import Take
from tests.hearing.made_licks import harp_of, tab_of

#: A lick on an A harp: tab, start and length in beats.
PORCH = (("2d", 0.0, 1.0), ("3d'", 1.0, 0.5), ("3d", 1.5, 0.5), ("4b", 2.0, 0.5), ("4d", 2.5, 0.5),
         ("4d", 3.0, 0.5), ("2d''", 3.5, 0.5), ("2d", 4.0, 3.0))  # fmt: skip


def recording(
    notes: Sequence[tuple[str, float, float]] = PORCH, *, harp: str = "A", tempo: float = 96,
    meter: str = "4/4", count: bool = True, technique: str = "",
) -> NDArray[Any]:  # fmt: skip
    """The notes after a bar of clicks, 44.1 kHz; each a little detached."""
    found, meant = harp_of(harp), METERS[meter]
    before = meant.beats if count else 0
    events = [
        Event("guide", before + start, length * 0.92, found.pitches(tab_of(tab)),
              technique=technique)
        for tab, start, length in notes
    ]  # fmt: skip
    clicks = click_events(meant, 1) if count else ()
    end = before + max(start + length for _, start, length in notes)
    return np.asarray(samples_of(Take((*clicks, *events), end), tempo))
