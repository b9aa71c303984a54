"""Divide a form into stretches of a lick's length, on one chord each if possible."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.lesson.model import Kind, Lick, LickBar
from formsheet.music.form import FormBar


@dataclass(frozen=True, slots=True)
class Stretch:
    """Bars that one lick fills."""

    first: int  # from 0
    chords: tuple[FormBar, ...]  # one entry a bar


def cover(chords: Sequence[FormBar], bars: int) -> Iterator[Stretch]:
    """Stretches of `bars` bars; the last one is shorter if they do not fit."""
    for first in range(0, len(chords), bars):
        yield Stretch(first, tuple(chords[first : first + bars]))


def beginning(lick: Lick, bars: int) -> Lick:
    """The first bars of a lick."""
    return lick._replace(bars=lick.bars[:bars], on=lick.on[:bars])


def ends(lick: Lick) -> Lick:
    """The first and the last bar of a lick, as a turnaround of two bars."""
    return lick._replace(
        turnaround=True,
        bars=(lick.bars[0], _struck(lick.bars[-1])),
        on=(lick.on[0], lick.on[-1]),
        tips=(),
    )


def _struck(bar: LickBar) -> LickBar:
    """A bar moved behind another one: a note held into it becomes a rest."""
    held = True
    marks = []
    for mark in bar:
        held = held and mark.kind is Kind.HOLD
        marks.append(mark._replace(kind=Kind.REST) if held else mark)
    return tuple(marks)
