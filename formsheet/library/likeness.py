"""Similar licks: the same, the same but for one note, or the same on another chord.

Each lick is filed under keys that similar licks share, so that thousands are grouped in one pass
without comparing every pair.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from formsheet.lesson.model import Kind, Lick
from formsheet.library.usage import Home, LickEntry
from formsheet.music.degree import degree
from formsheet.music.key import song_key
from formsheet.music.tab import Tab

#: Shorter licks that differ in one note are not reported: they have little in common.
_LEAST_BUT_ONE = 4  # notes
_LEAST_RECAST = 3


class Likeness(Enum):
    """How similar licks are, the most similar kind first."""

    SAME = "same"
    BUT_ONE_NOTE = "but one note"
    RECAST = "recast"


@dataclass(frozen=True)
class Alike:
    """A group of similar licks, and how they are similar."""

    likeness: Likeness
    licks: tuple[Home, ...]


@dataclass(frozen=True)
class _Event:
    """A sounding note: when, how long, in which feel, and its tab."""

    onset: Fraction  # quarters from the first bar line; less than 0 in a pick-up
    length: Fraction
    swings: bool | None
    tab: Tab


_Events = tuple[_Event, ...]


@dataclass(frozen=True)
class _Form:
    """Equal licks: their homes, their notes, their degrees."""

    homes: tuple[Home, ...]
    bar: Fraction
    events: _Events
    degrees: tuple[tuple[str, ...], ...]


#: A function from a lick to its keys; similar licks share a key.
_Keys = Callable[[_Form], Iterator[Hashable]]


def alike(entries: Iterable[LickEntry]) -> list[Alike]:
    """All groups of similar licks; in the other groups, equal licks count as one."""
    forms = _same(entries)
    found = [Alike(Likeness.SAME, form.homes) for form in forms if len(form.homes) > 1]
    found += _groups(Likeness.BUT_ONE_NOTE, forms, _but_one)
    found += _groups(Likeness.RECAST, forms, _recast)
    return found


def _same(entries: Iterable[LickEntry]) -> list[_Form]:
    groups: dict[Hashable, list[LickEntry]] = {}
    for entry in entries:
        key = (entry.facts.meter.text, tuple(_events(entry.lick, entry.facts.meter.bar)))
        groups.setdefault(key, []).append(entry)
    return [
        _Form(
            homes=tuple(sorted(entry.home for entry in group)),
            bar=group[0].facts.meter.bar,
            events=tuple(_events(group[0].lick, group[0].facts.meter.bar)),
            degrees=tuple(_degrees(group[0])),
        )
        for group in groups.values()
    ]


def _groups(likeness: Likeness, forms: Sequence[_Form], keys: _Keys) -> list[Alike]:
    """Forms that share a key, each group once."""
    sharing: dict[Hashable, dict[int, _Form]] = {}
    for at, form in enumerate(forms):
        for key in keys(form):
            sharing.setdefault(key, {})[at] = form
    groups = {tuple(group): group.values() for group in sharing.values() if len(group) > 1}
    return [
        Alike(likeness, tuple(sorted(home for form in group for home in form.homes)))
        for group in groups.values()
    ]


def _but_one(form: _Form) -> Iterator[Hashable]:
    """Keys of a lick: whole, and without each of its notes in turn.

    Licks that share one differ by one note: added, replaced, moved or of another length.
    """
    if len(form.events) >= _LEAST_BUT_ONE:
        yield form.bar, form.events
        for at in range(len(form.events)):
            yield form.bar, form.events[:at] + form.events[at + 1 :]


def _recast(form: _Form) -> Iterator[Hashable]:
    """The key of a lick: its rhythm and its degrees over its own chords."""
    if len(form.events) >= _LEAST_RECAST:
        rhythm = tuple((event.onset, event.length, event.swings) for event in form.events)
        yield form.bar, rhythm, form.degrees


# ---- What a lick is made of --------------------------------------------------------------------


def _events(lick: Lick, bar: Fraction) -> list[_Event]:
    """The sounding notes of a lick with its pick-up, holds joined."""
    starts = [-lick.pickup_length, *(bar * at for at in range(len(lick.bars)))]
    found: list[_Event] = []
    for start, marks in zip(starts, (lick.pickup, *lick.bars), strict=True):
        for mark in marks:
            if mark.kind is Kind.NOTE:
                assert mark.tab
                onset = start + mark.onset
                found.append(_Event(onset, mark.value.length, mark.swings, mark.tab))
            elif mark.kind is Kind.HOLD and found:
                last = found.pop()
                length = last.length + mark.value.length
                found.append(_Event(last.onset, length, last.swings, last.tab))
    return found


def _degrees(entry: LickEntry) -> Iterator[tuple[str, ...]]:
    """The degrees of each note over the first chord that the lick is written for at that place."""
    harp, lick = entry.facts.harp, entry.lick
    tonic = song_key(harp.key, entry.facts.position).pitch_class
    length = entry.facts.meter.bar
    for event in _events(lick, length):
        number, onset = divmod(max(event.onset, Fraction(0)), length)
        bar = lick.on[number]
        chord = bar[min(int(onset * len(bar) / length), len(bar) - 1)][0]
        root = tonic + chord.root
        yield tuple(degree(midi % 12, root) for midi in harp.pitches(event.tab))
