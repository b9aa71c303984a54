"""Every note of a harp over a chord, with degree and verdict: what a new lick may be made of."""

from __future__ import annotations

from typing import NamedTuple

from formsheet.judge.level import Limits
from formsheet.judge.verdicts import Verdict, tone_verdict
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.tab import Tab


class ChartNote(NamedTuple):
    """A single note over a chord."""

    tab: Tab
    midi: int
    degree: str  # over the chord: "b7"
    verdict: Verdict


class Chart(NamedTuple):
    """The single notes of a harp over a chord, hole by hole, the natural one of a breath first."""

    chord: Chord
    notes: tuple[ChartNote, ...]
    deeper: bool  # whether the harp has bends deeper than the level may be asked for


def chord_chart(
    chord: Chord,
    key: Key,
    harp: Harp,
    limits: Limits,
    *,
    overbends: bool = False,
    blue: bool = False,
) -> Chart:
    """The notes that a student may be asked for, by the limits of the level.

    `overbends`: those too that the level may not be asked for. `blue`: the tune has blue notes of
    its key (`fit.py: has_blue_notes`).
    """
    every = list(harp.single_notes(overbends or limits.overbends))
    shown = [(tab, midi) for tab, midi in every if tab.bend <= limits.deepest_bend]
    return Chart(
        chord=chord,
        notes=tuple(
            ChartNote(
                tab,
                midi,
                key.degree(midi, chord),
                tone_verdict(midi % 12, chord, key, blue),
            )
            for tab, midi in shown
        ),
        deeper=len(shown) < len(every),
    )
