"""What is to be laid on a harp: a line of sounding notes, and where each stands."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.lesson.model import Kind, Lick
from formsheet.music.harp import Harp
from formsheet.vocabulary.techniques import BENT_TECHNIQUES


@dataclass(frozen=True, slots=True)
class Sound:
    """A note, or notes that sound together."""

    midi: tuple[int, ...]  # low to high
    bar: int  # from 1; 0 is the pick-up
    onset: Fraction  # from its bar line, in quarters
    gap: Fraction  # quarters since the onset of the sound before; 0 of the first
    bends: bool = False  # its technique wants a note that bends
    melody: bool = False  # its top note is the melody, and stays whatever becomes of the rest
    mark: Hashable = None  # sounds with one mark are written once, so they share one tab

    def moved(self, half_steps: int) -> Sound:
        """The same, so many half steps higher."""
        return replace(self, midi=tuple(midi + half_steps for midi in self.midi))


Line = tuple[Sound, ...]


def moved(line: Sequence[Sound], half_steps: int) -> Line:
    """A line, so many half steps higher."""
    return tuple(sound.moved(half_steps) for sound in line)


def lick_line(lick: Lick, harp: Harp, bar_length: Fraction) -> Line:
    """The sounding notes of a lick, its pick-up first."""
    places = [(0, bar_length - lick.pickup_length, mark) for mark in lick.pickup]
    places += [
        (number, Fraction(0), mark)
        for number, bar in enumerate(lick.bars, start=1)
        for mark in bar
    ]  # fmt: skip
    sounds: list[Sound] = []
    since = Fraction(0)
    for bar, shift, mark in places:
        if mark.kind is not Kind.NOTE or mark.tab is None:
            continue
        at = bar * bar_length + shift + mark.onset
        sounds.append(
            Sound(
                midi=harp.pitches(mark.tab),
                bar=bar,
                onset=shift + mark.onset,
                gap=at - since if sounds else Fraction(0),
                bends=mark.technique in BENT_TECHNIQUES,
                mark=mark.span.place,
            )
        )
        since = at
    return tuple(sounds)
