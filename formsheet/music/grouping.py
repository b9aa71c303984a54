"""Group notes under beams, and marks under triplet brackets."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Protocol

BEAMED = "es"


class Mark(Protocol):
    """A written mark at its place in the bar."""

    @property
    def onset(self) -> Fraction:
        """Quarters from its bar line."""

    @property
    def length(self) -> Fraction:
        """Length in quarters, as written."""

    @property
    def value(self) -> str:
        """The written value: w h q e s."""

    @property
    def triplet(self) -> bool:
        """Whether it belongs to a triplet."""

    @property
    def is_rest(self) -> bool:
        """Whether it is a rest."""


def beams(marks: Sequence[Mark], beat: Fraction) -> list[list[int]]:
    """Runs of two or more beamed notes in one beat, as indexes; a rest ends a run.

    `beat` is in quarters.
    """
    groups: list[list[int]] = []
    last: int | None = None  # the beat of the note before, where one is beamed
    for i, mark in enumerate(marks):
        if mark.value not in BEAMED or mark.is_rest:
            last = None
            continue
        place = int(mark.onset // beat)
        if last == place:
            groups[-1].append(i)
        else:
            groups.append([i])
        last = place
    return [group for group in groups if len(group) > 1]


def second_beams(group: Sequence[int], marks: Sequence[Mark]) -> list[tuple[int, int]]:
    """Second beams of a beamed group: (first, last) indexes of sixteenths; equal for a stub."""
    runs: list[tuple[int, int]] = []
    for i in group:
        if marks[i].value != "s":
            continue
        if runs and runs[-1][1] == i - 1:
            runs[-1] = (runs[-1][0], i)
        else:
            runs.append((i, i))
    return runs


def triplets(marks: Sequence[Mark]) -> list[tuple[int, int]]:
    """Triplet brackets as (first, last) indexes; each ends when its triplet is complete."""
    found: list[tuple[int, int]] = []
    first: int | None = None
    total = Fraction(0)
    for i, mark in enumerate(marks):
        if not mark.triplet:
            if first is not None:
                found.append((first, i - 1))
                first = None
            continue
        if first is None:
            first, total = i, Fraction(0)
        total += mark.length
        if total.denominator % 3:
            found.append((first, i))
            first = None
    if first is not None:
        found.append((first, len(marks) - 1))
    return found
