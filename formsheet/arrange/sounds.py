"""Input of the search: a line of sounding notes with their places."""

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
    onset: Fraction  # in quarters from its bar line
    gap: Fraction  # quarters from the onset of the sound before; 0 for the first
    bends: bool = False  # its technique needs a note that can be bent
    melody: bool = False  # its top note is the melody, and is kept before the rest
    mark: Hashable = None  # sounds with the same mark are written once, so they share a tab

    def moved(self, half_steps: int) -> Sound:
        """A copy, so many half steps higher."""
        return replace(self, midi=tuple(midi + half_steps for midi in self.midi))


Line = tuple[Sound, ...]


def moved(line: Sequence[Sound], half_steps: int) -> Line:
    """A line moved up by so many half steps."""
    return tuple(sound.moved(half_steps) for sound in line)


def lick_line(lick: Lick, harp: Harp, bar_length: Fraction) -> Line:
    """The sounding notes of a lick, pick-up first; `bar_length` is in quarters."""
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
