"""Licks made from a seed: idiomatic moves on a harp, as they are written.

What is idiomatic is common practice, no source; the shares are our own choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from formsheet.music.harp import Harp
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import STRAIGHT, SWING, Feel
from formsheet.music.tab import Breath, Tab

HARPS = ("low F", "G", "Ab", "A", "Bb", "B", "C", "Db", "D", "Eb", "E", "F", "F#")

_LOW = ["1b", "1d'", "1d", "2b", "2d''", "2d'", "2d", "3d'''", "3d''", "3d'", "3d", "4b", "4d'",
        "4d", "5b", "5d", "6b", "6d'", "6d"]  # fmt: skip
_HIGH = [
    "6b",
    "6d",
    "7d",
    "7b",
    "8d",
    "8b'",
    "8b",
    "9d",
    "9b'",
    "9b",
    "10d",
    "10b''",
    "10b'",
    "10b",
]
_HOME = ("2d", "3d''", "4d", "4b", "6b", "1d", "5d", "3d'")
_CHORDS = ["123d", "234d", "34d", "23d", "45d", "345d", "123b", "234b", "34b", "45b", "456b",
           "12b"]  # fmt: skip
_SPLITS = ["14d", "14b", "25b", "36b", "47b", "58b", "69b"]
_OVERBLOWS = ["1ob", "4ob", "5ob", "6ob"]

F = Fraction
#: Cells of a beat: onsets and lengths in beats; how often.
_CELLS: list[tuple[int, list[tuple[Fraction, Fraction]]]] = [
    (6, [(F(0), F(1))]),
    (8, [(F(0), F(1, 2)), (F(1, 2), F(1, 2))]),
    (2, [(F(1, 2), F(1, 2))]),  # the beat itself is a rest, or held into
    (2, [(F(0), F(1, 2))]),
    (2, [(F(0), F(1, 3)), (F(1, 3), F(1, 3)), (F(2, 3), F(1, 3))]),
    (2, []),
]
_SIXTEENTHS: list[list[tuple[Fraction, Fraction]]] = [
    [(F(0), F(1, 4)), (F(1, 4), F(1, 4)), (F(1, 2), F(1, 2))],
    [(F(0), F(1, 2)), (F(1, 2), F(1, 4)), (F(3, 4), F(1, 4))],
    [(F(0), F(3, 4)), (F(3, 4), F(1, 4))],
]
_IN_TWELVE: list[tuple[int, list[tuple[Fraction, Fraction]]]] = [
    (5, [(F(0), F(1))]),
    (6, [(F(0), F(1, 3)), (F(1, 3), F(1, 3)), (F(2, 3), F(1, 3))]),
    (6, [(F(0), F(2, 3)), (F(2, 3), F(1, 3))]),
    (2, [(F(2, 3), F(1, 3))]),
]


@dataclass(frozen=True)
class MadeNote:
    """A written note; places in beats of the meter from the first bar line, eighths even."""

    tab: Tab
    midi: tuple[int, ...]
    start: Fraction
    end: Fraction
    technique: str = ""


@dataclass(frozen=True)
class MadeLick:
    """A lick as it is written."""

    seed: int
    harp: Harp
    meter: Meter
    feel: Feel
    tempo: int
    notes: tuple[MadeNote, ...]

    def seconds(self, place: Fraction) -> float:
        """Where a place sounds, swing included, from the first bar line."""
        beat, part = divmod(place, 1)
        divided = {note.start % 1 for note in self.notes if note.start // 1 == beat} - {0, F(1, 2)}
        if part == F(1, 2) and not divided and not self.meter.compound:
            part = self.feel.share
        return float(beat + part) * 60 / self.tempo


def tab_of(text: str) -> Tab:
    """A mark such as `34d` or `3d''`."""
    over = "o" in text
    plain = text.replace("o", "").rstrip("'")
    holes = plain[:-1]
    numbers = (10,) if holes == "10" else tuple(int(each) for each in holes)
    return Tab(numbers, Breath(plain[-1]), text.count("'"), over)


def harp_of(name: str) -> Harp:
    """A harp such as `low F`."""
    *register, key = name.split()
    return Harp(key, register[0] if register else "")


def made_lick(
    seed: int, *, chords: bool = False, meter: str = "4/4", pickup: bool = False,
    overblows: bool = False, shakes: bool = False,
) -> MadeLick:  # fmt: skip
    """The lick of a seed: two bars, sometimes one or three."""
    random = Random(seed)
    harp = harp_of(random.choice(HARPS))
    found = METERS[meter]
    tempo = random.randint(60, 140)
    feel = SWING if random.random() < 0.5 and not found.compound else STRAIGHT
    bars = random.choice((1, 2, 2, 2, 3))
    places = _rhythm(random, found, bars, tempo)
    if pickup:
        places = [(F(-1, 2) if not found.compound else F(-1, 3), F(0)), *places]
        if random.random() < 0.5 and not found.compound:
            places.insert(0, (F(-1), F(-1, 2)))
    tabs = _walk(random, len(places), chords, overblows)
    notes = []
    for at, ((start, end), tab) in enumerate(zip(places, tabs, strict=True)):
        shake = shakes and end - start >= 1 and tab.shape.value == "single" and tab.bend == 0
        shake = shake and max(tab.holes) < 10 and at % 2 == 0
        notes.append(MadeNote(tab, harp.pitches(tab), start, end, "shake" if shake else ""))
    return MadeLick(seed, harp, found, feel, tempo, tuple(notes))


def _rhythm(random: Random, meter: Meter, bars: int, tempo: int) -> list[tuple[Fraction, Fraction]]:
    """Where notes begin and end; the first is on the first beat."""
    cells = _IN_TWELVE if meter.compound else _CELLS
    found: list[tuple[Fraction, Fraction]] = []
    for beat in range(bars * meter.beats):
        cell = random.choices([each for _, each in cells], [share for share, _ in cells])[0]
        if beat == 0:
            cell = random.choice(cells[:2])[1]
        elif not meter.compound and tempo < 100 and random.random() < 0.1:
            cell = random.choice(_SIXTEENTHS)
        found += [(beat + start, beat + start + length) for start, length in cell]
    held = []
    for at, (start, end) in enumerate(found):  # some notes are held to the next
        following = found[at + 1][0] if at + 1 < len(found) else F(bars * meter.beats)
        if following > end and random.random() < 0.5:
            end = following
        held.append((start, end))
    return held


def _walk(random: Random, count: int, chords: bool, overblows: bool) -> list[Tab]:
    row = _HIGH if random.random() < 0.15 else _LOW
    at = row.index(random.choice([each for each in _HOME if each in row] or row))
    found: list[str] = []
    for _ in range(count):
        if chords and random.random() < 0.45:
            found.append(random.choice(_CHORDS + _SPLITS))
            continue
        if overblows and random.random() < 0.25:
            found.append(random.choice(_OVERBLOWS))
            continue
        if found and random.random() < 0.12:
            found.append(found[-1])  # struck again
            continue
        step = random.choice((-3, -2, -2, -1, -1, -1, 1, 1, 1, 2, 2, 3))
        if not 0 <= at + step < len(row):
            step = -step
        at += step
        if "'" in row[at] and random.random() < 0.35 and 0 <= at + 1 < len(row):
            at += 1  # fewer bends than plain notes
        found.append(row[at])
    return [tab_of(each) for each in found]
