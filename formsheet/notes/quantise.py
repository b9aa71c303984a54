"""Quantise tones to the grid of the language's note values: sixteenths, and thirds of a beat.

Each beat is read as even or as a triplet, whichever is nearer to its onsets. Every change is
reported, and by how much.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.music.rhythm import Meter
from formsheet.music.swing import STRAIGHT, Feel
from formsheet.notes.bars import in_bars
from formsheet.notes.melody import (
    MOST_BARS,
    MOST_NOTES,
    Melody,
    NotesError,
    Reading,
    Said,
    Tone,
    written_meter,
)
from formsheet.notes.swung import Swung, found_swing

_QUARTER = Fraction(1)
_EVEN = Fraction(1, 4)  # a sixteenth
_THIRDS = (Fraction(1, 3), Fraction(1, 6))  # an eighth and a sixteenth of a triplet
#: A note at most this much before a beat, in quarters, is moved onto it.
_EARLY = Fraction(1, 12)
#: A performed note that ends at most this much before the next, in quarters, is extended to it.
_LET_GO = Fraction(1, 4)
#: How much nearer than sixteenths a triplet must be in a performance, in quarters a note.
_CLEARLY = Fraction(1, 48)


@dataclass(frozen=True, slots=True)
class Grid:
    """The places in each quarter on which notes may begin and end."""

    steps: tuple[Fraction, ...]  # of each quarter, by its number from `first`
    first: int

    def nearest(self, at: Fraction) -> Fraction:
        """The place nearest to a time in quarters."""
        quarter = int((at + _EARLY) // _QUARTER)
        step = self.steps[min(max(quarter - self.first, 0), len(self.steps) - 1)]
        return quarter + round((at - quarter) / step) * step


def quantised(reading: Reading) -> Melody:
    """The quantised melody; NotesError if it is too long or no note is left."""
    reading = in_bars(reading)
    meter, said = written_meter(reading.meter)
    tones: Sequence[Tone] = reading.tones
    if len(tones) > MOST_NOTES:
        raise NotesError(
            f"the melody has {len(tones)} notes; {MOST_NOTES} at most are set to tab: take a part, "
            "such as --bars 1-24"
        )
    if tones[-1].end - tones[0].start > MOST_BARS * meter.bar:
        raise NotesError(
            f"the melody is longer than {MOST_BARS} bars: take a part, such as --bars 1-24"
        )
    if reading.played:
        tones, silent = _begun(tones, meter)
        said += silent
    swung = found_swing(tones) if reading.played and not meter.compound else None
    if swung:
        said.append(Said("swing", {"feel": swung.feel, "beats": swung.beats}))
        tones = [_evened(tone, swung) for tone in tones]
    grid = _grid(tones, meter, reading.played)
    placed = _placed(tones, grid, reading.played)
    feel, feels = _feels(reading, swung)
    return Melody(
        tones=tuple(placed),
        meter=meter,
        feel=feel,
        title=reading.title,
        key=reading.key,
        signature=reading.signature,
        tempo=reading.tempo / meter.beat if reading.tempo else None,
        said=(*reading.said, *said, *_told(tones, placed, grid)),
        chords=reading.chords,
        feels=feels,
        sections=reading.sections,
        harp=reading.harp,
        position=reading.position,
        form=reading.form,
    )


def _feels(reading: Reading, swung: Swung | None) -> tuple[Feel, tuple[tuple[Fraction, Feel], ...]]:
    """The feel at the start, and where it changes."""
    if swung:
        return swung.feel, ()
    feel = STRAIGHT
    later: list[tuple[Fraction, Feel]] = []
    for at, each in sorted(reading.feels, key=lambda pair: pair[0]):
        if at <= max(Fraction(0), reading.tones[0].start):
            feel = each
        elif each != (later[-1][1] if later else feel):
            later.append((at, each))
    return feel, tuple(later)


def _begun(tones: Sequence[Tone], meter: Meter) -> tuple[Sequence[Tone], list[Said]]:
    """The tones with empty bars at the start removed."""
    empty = int((tones[0].start + _EARLY) // meter.bar)
    if not empty:
        return tones, []
    shift = empty * meter.bar
    moved = [replace(t, start=t.start - shift, end=t.end - shift) for t in tones]
    return moved, [Said("empty-bars", {"count": empty})]


def _evened(tone: Tone, swung: Swung) -> Tone:
    return replace(tone, start=swung.even(tone.start), end=swung.even(tone.end))


def _grid(tones: Sequence[Tone], meter: Meter, played: bool) -> Grid:
    first = int(tones[0].start // _QUARTER)
    last = int(tones[-1].end // _QUARTER) + 1
    onsets: dict[int, list[Fraction]] = {}
    for tone in tones:
        # In a written file ends count too: a rest or a hold may be all there is of a triplet.
        for at in (tone.start,) if played else (tone.start, tone.end):
            quarter = int((at + _EARLY) // _QUARTER)
            onsets.setdefault(quarter, []).append(at - quarter)
    steps = (
        _EVEN if meter.compound else _step(onsets.get(quarter, []), played)
        for quarter in range(first, last + 1)
    )
    return Grid(tuple(steps), first)


def _step(places: Sequence[Fraction], played: bool) -> Fraction:
    """The step to which the places in a quarter are nearest; sixteenths in case of a tie."""
    least, best = _off(places, _EVEN), _EVEN
    margin = _CLEARLY * len(places) if played else Fraction(0)
    for step in _THIRDS:
        if (off := _off(places, step)) + margin < least:
            least, best = off, step
    return best


def _off(places: Sequence[Fraction], step: Fraction) -> Fraction:
    return sum((abs(at - round(at / step) * step) for at in places), Fraction(0))


def _placed(tones: Sequence[Tone], grid: Grid, played: bool) -> list[Tone]:
    """The tones on the grid, in order; of two at the same place the longer is kept."""
    starts = [grid.nearest(tone.start) for tone in tones]
    placed: list[Tone] = []
    for index, tone in enumerate(tones):
        start = starts[index]
        after = bisect_right(starts, start)
        following = starts[after] if after < len(starts) else None
        end = max(grid.nearest(tone.end), start)
        if following is not None and (
            end > following or (played and following - end < _LET_GO) or end == start
        ):
            end = following
        if end <= start:
            end = start + _EVEN
        if placed and placed[-1].start == start:
            if tone.end - tone.start > tones[index - 1].end - tones[index - 1].start:
                placed[-1] = replace(tone, start=start, end=end)
            continue
        placed.append(replace(tone, start=start, end=end))
    return placed


def _told(tones: Sequence[Tone], placed: Sequence[Tone], grid: Grid) -> list[Said]:
    """Remarks on what was moved, and on triplets."""
    said = []
    off = [abs(grid.nearest(tone.start) - tone.start) for tone in tones]
    if moved := [each for each in off if each]:
        said.append(Said("onsets", {"count": len(moved), "of": len(tones), "most": max(moved)}))
    if lost := len(tones) - len(placed):
        said.append(Said("too-short", {"count": lost}))
    ends = {tone.start: tone.end for tone in placed}
    lengths = [abs(ends.get(grid.nearest(tone.start), tone.end) - tone.end) for tone in tones]
    if moved := [each for each in lengths if each]:
        said.append(Said("lengths", {"count": len(moved), "most": max(moved)}))
    struck = {tone.start // _QUARTER for tone in placed}
    thirds = sum(
        1
        for quarter, step in enumerate(grid.steps, start=grid.first)
        if step in _THIRDS and quarter in struck
    )
    if thirds:
        said.append(Said("triplets", {"count": thirds}))
    return said
