"""Data for the script of the page: events, bars and places, in beats.

All music is computed here; the script only applies a tempo. Numbers are rounded to a millionth of
a beat.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict
from typing import Any

from formsheet.page.page_score import Cell, PageChorus
from formsheet.sheet.spoken import spoken_around, spoken_tab
from formsheet.sound.backing import backing_events
from formsheet.sound.balance import band_gain
from formsheet.sound.count_in import click_events
from formsheet.sound.events import Event, guide_events
from formsheet.sound.recipe import RECIPE
from formsheet.sound.shapes import PLAIN, SHAPES
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.swing_times import SwingTimes
from formsheet.tune.timeline import Tune

Data = dict[str, Any]  # for JSON

_USUAL = {"loudness": 1.0, "technique": "", "neighbour": (), "bar": -1, "once": False,
          "draw": False, "slide": 0.0}  # fmt: skip


def facts_data(tune: Tune, start: str) -> Data:
    """Tempos in beats a minute, and the count-in; `start` is the start tempo."""
    facts = tune.lesson.facts
    return {
        "tempo": float(facts.tempo),
        "start": float(start),
        "beats": facts.meter.beats,
        "countIn": tune.count_in,
    }


def sound_data(tune: Tune) -> Data:
    """All sound: events by voice, in order of time; the recipe of the reed and the shapes.

    `reeds` names every single note of the harp, for the self-check: its tab in words, its pitch.
    """
    meter = tune.lesson.facts.meter
    bars = sum(1 for bar in tune.bars if bar.number)
    guide = guide_events(tune)
    used = {event.technique for event in guide} - {""}
    return {
        "guide": [
            _event(event)
            | {"home": note.home, "breath": note.tab.breath.word, "tab": spoken_tab(note.tab)}
            | ({"bend": note.tab.bend} if note.tab.bend else {})
            for event, note in zip(guide, tune.notes, strict=True)
        ],
        "band": [_event(event) for event in backing_events(tune)],
        "clicks": [_event(event) for event in click_events(meter, bars)],
        "count": [_event(event) for event in click_events(meter, 1)],
        "reeds": [(spoken_tab(tab), midi) for tab, midi in tune.lesson.facts.harp.single_notes()],
        "reed": asdict(RECIPE),
        "balance": round(band_gain(tune), 4),
        "plain": asdict(PLAIN),
        "shapes": {name: asdict(SHAPES[name]) for name in sorted(used)},
    }


def _event(event: Event) -> Data:
    """An event; fields with their usual value are left out."""
    made: Data = {
        "voice": event.voice,
        "start": _beats(event.start),
        "length": _beats(event.length),
        "midi": event.midi,
    }
    return made | {
        name: getattr(event, name)
        for name, usual in _USUAL.items()
        if getattr(event, name) != usual
    }


def bars_data(tune: Tune, choruses: Sequence[PageChorus]) -> list[Data]:
    """For each bar of the tune: its time, its drawing, and the place of each moment in it."""
    meter = tune.lesson.facts.meter
    cells = dict(_cells(choruses))
    times = SwingTimes(tune.bars, tune.lesson.facts)
    beats_a_second = float(tune.lesson.facts.tempo) / 60
    made = []
    for index, bar in enumerate(tune.bars):
        at, cell = cells[index]
        start = float(bar.start / meter.beat)
        moments = [(start, cell.start)]
        for played, x in zip(bar.marks, cell.xs, strict=True):
            moments.append((times.seconds(bar.start + played.onset) * beats_a_second, x))
        moments.append((start + meter.beats, 1.0))
        made.append(
            {
                "start": _beats(start),
                "cell": at,
                "number": bar.number,
                "chorus": bar.chorus,
                "moments": [(_beats(beat), round(x, 4)) for beat, x in _rising(moments)],
            }
        )
    return made


def cells_data(choruses: Sequence[PageChorus]) -> list[Data]:
    """For each drawing on the page: which part of it is seen, and where it may be broken."""
    return [
        {
            "width": round(cell.width, 2),
            "least": cell.least,
            "fold": cell.fold,
            "windows": {
                str(across): (round(window.top, 2), round(window.height, 2))
                for across, window in cell.windows.items()
            },
        }
        for chorus in choruses
        for cell in chorus.cells
    ]


def _rising(moments: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Moments in order, one for each time."""
    last = float("-inf")
    for beat, x in sorted(moments):
        if beat > last + 1e-6:
            yield beat, x
            last = beat


def _cells(choruses: Sequence[PageChorus]) -> Iterator[tuple[int, tuple[int, Cell]]]:
    """For each bar of the tune, by index, its drawing on the page and the index of that."""
    drawings = ((cell, each) for chorus in choruses
                for cell, each in zip(chorus.cells, chorus.stands_for, strict=True))  # fmt: skip
    for at, (cell, bars) in enumerate(drawings):
        for index in bars:
            yield index, (at, cell)


def spoken_data(tune: Tune, choruses: Sequence[PageChorus]) -> list[Data]:
    """The text of each drawing for a screen reader, in parts, as the chords depend on the harp."""
    said: dict[int, Data] = {}
    letters = LickLetters(tune)
    for index, (at, _) in sorted(_cells(choruses)):
        if at not in said:
            bar = tune.bars[index]
            first_time = letters.first_time(index)
            before, after = spoken_around(bar, letters, first_time=first_time)
            chords = [chord.numeral for _, chord in bar.chords]
            said[at] = {"before": before, "chords": chords, "after": after}
    return [said[at] for at in sorted(said)]


def _beats(value: float) -> float:
    return round(value, 6)
