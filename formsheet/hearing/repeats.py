"""The same pitch struck again, decided anew when the beat is known.

On the grid a shallow dip will do; off it even a deep one is more likely a wavering tone. The grid
must be the one that was fitted to the take: a nominal one does more harm than good.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from formsheet.hearing.attacks import Dip
from formsheet.hearing.beat_grid import Grid
from formsheet.hearing.notes import Doubt, HeardNote
from formsheet.music.swing import Feel

ON_GRID_DB = 2.8  # from which a dip on the grid is an attack
OFF_GRID_DB = 7.0
_ON_S, _OFF_S = 0.03, 0.055  # seconds from the grid: surely on it, surely off it
_WAVES, _WAVERING_DB = 4, 2.0  # a note with so many dips wavers: they must be deeper
_UNSURE_DB = 1.5  # decibels around what is asked: a doubt


def struck_again(
    notes: Sequence[HeardNote], grid: Grid, feel: Feel, compound: bool
) -> list[HeardNote]:
    """The notes, split and joined where the fitted grid says so."""
    places = [n / 3 for n in range(3)] if compound else [0.0, float(feel.share)]
    found: list[HeardNote] = []
    for whole in _wholes(notes):
        wavers = _WAVERING_DB if len(whole.dips) >= _WAVES else 0.0
        deep = [dip for dip in whole.dips if dip.depth >= _asked(dip.at, grid, places) + wavers]
        starts = [Dip(whole.start, 0.0), *deep]
        for at, dip in enumerate(starts):
            end = starts[at + 1].at if at + 1 < len(starts) else whole.end
            end = min(end, whole.end)
            inside = tuple(each for each in whole.dips if dip.at < each.at < end)
            doubts = set(whole.doubts) - {Doubt.AGAIN, Doubt.ONCE}
            if any(_asked(e.at, grid, places) - e.depth < _UNSURE_DB for e in inside):
                doubts.add(Doubt.AGAIN)
            if at and dip.depth - _asked(dip.at, grid, places) < _UNSURE_DB:
                doubts.add(Doubt.ONCE)
            found.append(
                replace(whole, start=dip.at, end=end, dip=dip.depth, dips=inside,
                        doubts=frozenset(doubts))
            )  # fmt: skip
    return found


def _wholes(notes: Sequence[HeardNote]) -> list[HeardNote]:
    """The notes with those that were split at a dip joined, all dips kept."""
    found: list[HeardNote] = []
    for note in notes:
        before = found[-1] if found else None
        if before and note.dip and before.midi == note.midi:
            dips = (*before.dips, Dip(note.start, note.dip), *note.dips)
            doubts = before.doubts | note.doubts
            found[-1] = replace(before, end=note.end, dips=dips, doubts=doubts)
        else:
            found.append(note)
    return found


def _asked(at: float, grid: Grid, places: Sequence[float]) -> float:
    """How deep a dip at a time must be, in decibels."""
    place = grid.place(at)
    beat = place // 1
    near = min(abs(at - grid.seconds(beat + part)) for part in (*places, 1.0))
    share = min(1.0, max(0.0, (near - _ON_S) / (_OFF_S - _ON_S)))
    middle = OFF_GRID_DB if grid.beat > 0.4 else (ON_GRID_DB + OFF_GRID_DB) / 2
    return ON_GRID_DB + share * (middle - ON_GRID_DB)
