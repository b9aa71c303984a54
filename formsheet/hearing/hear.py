"""Samples and a harp to a lick: the whole way, free of files and printing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.hearing.actions import actions_of
from formsheet.hearing.beat_grid import Grid, fitted
from formsheet.hearing.clicks import CountIn, after_count, found_count_in
from formsheet.hearing.holes import chosen_tabs
from formsheet.hearing.lengths import endings
from formsheet.hearing.notes import Doubt, HeardNote, Listening, listen, notes_of
from formsheet.hearing.repeats import struck_again
from formsheet.hearing.shakes import with_shakes
from formsheet.hearing.spectra import Samples
from formsheet.hearing.tempo import Tempo, feel_of, tempi_of, zero_of
from formsheet.music.harp import Harp
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import STRAIGHT, Feel
from formsheet.music.tab import Tab


@dataclass(frozen=True)
class WrittenNote:
    """A heard note with its place in the music; places in beats as written, eighths even."""

    heard: HeardNote
    tab: Tab
    start: Fraction  # from the first bar line; in the pick-up negative
    end: Fraction

    @property
    def doubts(self) -> frozenset[Doubt]:
        """What is not sure about it."""
        return self.heard.doubts


@dataclass(frozen=True)
class Hearing:
    """What was heard."""

    notes: tuple[WrittenNote, ...]
    harp: Harp
    meter: Meter
    feel: Feel
    beat: float  # seconds
    grid: Grid
    tuning: float  # cents above A4 = 440 Hz
    count_in: CountIn | None
    tempo_given: bool
    feel_given: bool
    other_tempi: tuple[float, ...] = ()  # beats a minute that fit nearly as well

    @property
    def tempo(self) -> float:
        """Beats of the meter a minute: as given or counted in, else as played."""
        known = self.tempo_given or self.count_in
        return 60 / (self.beat if known else self.grid.beat)

    @property
    def bars(self) -> int:
        """The number of bars, at least 1, without the pick-up."""
        end = self.notes[-1].end
        return max(1, -int(-end // self.meter.beats))


class NothingHeard(Exception):
    """Nothing that can be written down was heard; the message says what, and what to do."""


def hear(
    samples: Samples, rate: int, harp: Harp, *, tempo: float | None = None,
    meter: Meter | None = None, feel: Feel | None = None, chords: bool = False,
) -> Hearing:  # fmt: skip
    """Mono samples (from -1 to 1, `rate` a second) as notes on a harp, on a grid of beats.

    `tempo` (beats a minute), `meter` and `feel` where they are known; NothingHeard where there is
    no note.
    """
    return written(listen(samples, rate), harp, tempo=tempo, meter=meter, feel=feel, chords=chords)


def written(
    heard: Listening, harp: Harp, *, tempo: float | None = None, meter: Meter | None = None,
    feel: Feel | None = None, chords: bool = False,
) -> Hearing:  # fmt: skip
    """As `hear`, of a recording that has been listened to."""
    count_in = found_count_in(heard.samples, tempo, meter)
    ignore = count_in.covered if count_in else ()
    notes = notes_of(heard, actions_of(harp, chords), ignore=ignore)
    if count_in:
        notes = after_count(notes, count_in)
    notes = with_shakes(notes, harp)
    if not notes:
        raise NothingHeard("no note of this harp was heard; is it the right harp?")
    meter = meter or _meter(count_in)
    attacks = [note.start for note in notes]
    others: Sequence[Tempo] = ()
    given = feel
    if count_in:
        zero, beat = count_in.end, 60 / tempo if tempo else count_in.beat
    elif tempo:
        beat = 60 / tempo
        zero = zero_of(attacks, beat, feel or STRAIGHT, meter.compound)
    else:
        best, *others = tempi_of(attacks, meter.compound, feel)
        zero, beat, feel = best.grid.zero, best.beat, best.feel
        others = [each for each in others if each.cost < best.cost + 0.5][:2]
    feel = feel or feel_of(attacks, zero, beat, meter.compound, bool(count_in))
    grid = fitted(attacks, zero, beat, feel, meter.compound, fixed=bool(count_in))
    notes = struck_again(notes, grid, feel, meter.compound)
    attacks = [note.start for note in notes]
    grid = fitted(attacks, zero, beat, feel, meter.compound, fixed=bool(count_in))
    if not count_in:
        grid = _from_first_beat(grid)
    return Hearing(
        notes=tuple(_on_grid(notes, grid, feel, meter)),
        harp=harp,
        meter=meter,
        feel=feel,
        beat=beat,
        grid=grid,
        tuning=heard.tuning,
        count_in=count_in,
        tempo_given=tempo is not None,
        feel_given=given is not None,
        other_tempi=tuple(each.per_minute for each in others),
    )


def _meter(count_in: CountIn | None) -> Meter:
    """The meter of a count-in; 4/4 where nothing says otherwise."""
    if count_in:
        simple = [meter for meter in METERS.values() if meter.beats == count_in.meter]
        return min(simple, key=lambda meter: meter.compound)
    return METERS["4/4"]


def _from_first_beat(grid: Grid) -> Grid:
    """The grid with its first bar at the first note; one off the beat is a pick-up."""
    first = -(-grid.places[0] // 1)
    if not first:
        return grid
    return replace(
        grid,
        zero=grid.seconds(float(first)),
        beat=grid.beat + 2 * grid.drift * float(first),
        places=tuple(place - first for place in grid.places),
    )


def _on_grid(notes: Sequence[HeardNote], grid: Grid, feel: Feel, meter: Meter) -> list[WrittenNote]:
    ends = endings(grid.places, [note.end for note in notes], grid, feel, meter.compound)
    tabs = chosen_tabs([note.action for note in notes])
    found = []
    rows = zip(notes, grid.places, grid.unsure, ends, tabs, strict=True)
    for note, start, unsure, end, (tab, other_place) in rows:
        doubts = set(note.doubts)
        if unsure:
            doubts.add(Doubt.ATTACK)
        if end.unsure:
            doubts.add(Doubt.LENGTH)
        if other_place:
            doubts.add(Doubt.PLACE)
        found.append(WrittenNote(replace(note, doubts=frozenset(doubts)), tab, start, end.place))
    return found
