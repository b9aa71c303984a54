"""The guide tone beside sampled harmonicas, measured: `python -m tests.sound.against_samples`.

Every natural note of three harps, held for a second: the centroid of its spectrum, its partials,
how its level moves, and how fast it speaks.
"""

from __future__ import annotations

import sys
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from formsheet.music.harp import Harp
from formsheet.music.pitch import hertz
from formsheet.music.tab import Breath
from formsheet.sound.events import Event
from formsheet.sound.reed import guide_tone
from formsheet.sound.samples import RATE
from tests.sound.sampled import FONTS, harmonica, missing

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

HARPS = (Harp("F", "low"), Harp("C"), Harp("G", "high"))
SECONDS = 1.0
_SETTLED = slice(round(0.25 * RATE), round(0.95 * RATE))
_PARTIALS = 8
_TOP = 12_000.0  # hertz
_FLOOR = 1e-4  # of a note's power: 40 dB under it no partial is heard beside the others


class Heard(NamedTuple):
    """What is measured of one note."""

    centroid: float  # hertz, weighted by power, up to 12 kHz
    partials: tuple[float, ...]  # decibels of partials 1 to 8 against the whole, -40 at least
    movement: float  # decibels between the quietest and the loudest fiftieth once settled
    attack: float  # milliseconds from a tenth to nine tenths of the settled level


def measured(note: Samples, midi: int) -> Heard:
    """What is measured of a note of a second that begins with its onset."""
    settled = note[_SETTLED]
    power = np.abs(np.fft.rfft(settled * np.hanning(len(settled)))) ** 2
    at = np.fft.rfftfreq(len(settled), 1 / RATE)
    power[at > _TOP] = 0
    bands = [np.abs(at / hertz(midi) - number) < 0.2 for number in range(1, _PARTIALS + 1)]
    shares = np.array([power[band].sum() for band in bands]) / power.sum()
    level = np.sqrt(np.convolve(note**2, np.ones(_width(midi)) / _width(midi), mode="same"))
    usual = float(np.median(level[_SETTLED]))
    low, high = np.percentile(level[_SETTLED], [2, 98])
    speaks = level[: round(0.2 * RATE)] / usual
    attack = (np.argmax(speaks > 0.9) - np.argmax(speaks > 0.1)) / RATE
    return Heard(
        float((at * power).sum() / power.sum()),
        tuple(10 * np.log10(np.maximum(shares, _FLOOR))),
        float(20 * np.log10(high / low)),
        float(attack * 1000),
    )


def _width(midi: int) -> int:
    """Samples of the window over which a level is taken: two periods, so that none is seen."""
    return round(2 * RATE / hertz(midi))


def natural(harp: Harp) -> list[tuple[str, int, bool]]:
    """Every natural note of a harp: its tab, its MIDI number, whether it is drawn."""
    return [
        (str(tab), midi, tab.breath is Breath.DRAW)
        for tab, midi in harp.single_notes()
        if not tab.bend
    ]


@cache
def ours(midi: int, draw: bool) -> Heard:
    """The guide tone, measured."""
    return measured(guide_tone(Event("guide", 0, SECONDS, (midi,), draw=draw), 1.0), midi)


@cache
def theirs(package: str, harp: Harp) -> dict[int, Heard]:
    """A sampled harmonica on the notes of a harp, measured."""
    notes = tuple(sorted({midi for _, midi, _ in natural(harp)}))
    found = harmonica(package, notes, SECONDS)
    return {midi: measured(note, midi) for midi, note in found.items()}


def distance(one: Heard, other: Heard) -> float:
    """Decibels between the partials of two notes, the mean of all eight."""
    return float(np.mean(np.abs(np.subtract(one.partials, other.partials))))


class Row(NamedTuple):
    """One note, ours and the sampled ones by the name of their package."""

    tab: str
    midi: int
    ours: Heard
    theirs: dict[str, Heard]

    @property
    def nearest(self) -> float:
        """Decibels between our partials and those of the nearer sampled note."""
        return min(distance(self.ours, other) for other in self.theirs.values())


def rows(harp: Harp) -> list[Row]:
    """The natural notes of a harp; each has at least one sampled note beside it."""
    sampled = {package: theirs(package, harp) for package in FONTS}
    return [
        Row(
            tab,
            midi,
            ours(midi, draw),
            {package: each[midi] for package, each in sampled.items() if midi in each},
        )
        for tab, midi, draw in natural(harp)
    ]


def table() -> str:
    """All harps, a line a note."""
    lines = [
        "centroid in hertz, movement in dB, attack in ms: ours, " + ", ".join(FONTS),
        "partials: dB to the nearer one, the mean of partials 1 to 8",
    ]
    for harp in HARPS:
        lines += [
            "",
            f"{harp.name} harp   centroid            movement        attack        partials",
        ]
        found = rows(harp)
        lines += [
            f"  {row.tab:4} {row.midi:4} "
            + _three(row, "centroid", "6.0f") + "  " + _three(row, "movement", "4.1f") + "  "
            + _three(row, "attack", "3.0f") + f"  {row.nearest:6.1f}"
            for row in found
        ]  # fmt: skip
        lines.append(
            f"  mean distance of partials: {np.mean([row.nearest for row in found]):.1f} dB"
        )
    return "\n".join(lines)


def _three(row: Row, what: str, style: str) -> str:
    values = [getattr(row.ours, what)] + [
        getattr(row.theirs[package], what) if package in row.theirs else None for package in FONTS
    ]
    blank = " " * int(style.partition(".")[0])
    return " ".join(blank if value is None else format(value, style) for value in values)


if __name__ == "__main__":
    if absent := missing():
        sys.exit(f"not installed: {' '.join(absent)} (Debian packages)")
    print(table())
