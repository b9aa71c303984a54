"""Which choruses are printed: equal ones once; of a last time only the bars that differ."""

from __future__ import annotations

from dataclasses import dataclass

from formsheet.lesson.model import Kind
from formsheet.tune.chorus_words import (
    chorus_words,
    last_time_words,
    own_bars_words,
    pickup_once_words,
    times_words,
)
from formsheet.tune.timeline import Chorus, Tune, goes_on

MOST_CHANGED = 4  # bars, one line of the sheet; a last time with more changes is printed whole


@dataclass(frozen=True, slots=True)
class Printed:
    """Equal choruses, printed once; `changed`: only these bars are printed, counted from 0."""

    choruses: tuple[Chorus, ...]
    changed: tuple[int, ...] = ()
    of: Printed | None = None  # the choruses from which the changed bars differ

    @property
    def last_time(self) -> bool:
        """The last pass of a play line, printed apart from those before it."""
        first, last = self.choruses[0], self.choruses[-1]
        return last.pass_number == last.passes > len(self.choruses) and first.pass_number > 1


def printed_choruses(tune: Tune) -> list[Printed]:
    """The choruses to print, in order."""
    found: list[Printed] = []
    for chorus in tune.choruses:
        before = found[-1] if found else None
        changed = differing(tune, before.choruses[-1], chorus) if before else ()
        if before is None or chorus.pass_number == 1 or before.changed:
            found.append(Printed((chorus,)))
        elif not changed:
            found[-1] = Printed((*before.choruses, chorus))
        elif len(changed) <= MOST_CHANGED:
            found.append(Printed((chorus,), changed, before))
        else:
            found.append(Printed((chorus,)))
    return found


def differing(tune: Tune, one: Chorus, other: Chorus) -> tuple[int, ...]:
    """Positions (from 0) of the bars that differ, each extended back to the start of its lick."""
    places = {
        at
        for at, pair in enumerate(zip(one.bars, other.bars, strict=True))
        if _played(tune, pair[0]) != _played(tune, pair[1])
    }
    for at in sorted(places, reverse=True):
        while at and _goes_on(tune, other.bars[at]):
            at -= 1
            places.add(at)
    return tuple(sorted(places))


def _played(tune: Tune, index: int) -> tuple[object, ...]:
    bar = tune.bars[index]
    marks = tuple(mark._replace(number=None) for mark in bar.marks)
    return bar.chords, bar.lick and bar.lick.name, bar.slot.bar_in_lick, marks


def _goes_on(tune: Tune, index: int) -> bool:
    """Whether a bar continues the lick of the bar before it, or holds a note of it."""
    bar = tune.bars[index]
    held = bool(bar.marks) and bar.marks[0].mark.kind is Kind.HOLD
    return held or goes_on(tune.bars[index - 1], bar)


def title_of(printed: Printed, alone: bool) -> str:
    """The heading of a chorus; `alone`: the only chorus, which needs no number."""
    home = printed.of or printed
    first = home.choruses[0]
    last = (printed if printed.of else home).choruses[-1]
    title = first.title or ("" if alone else chorus_words(first.number, last.number))
    if printed.changed:
        return last_time_words(title, [at + 1 for at in printed.changed])
    return last_time_words(title, []) if printed.last_time else title


def note_of(
    tune: Tune, printed: Printed, following: Printed | None, *, own_bars: bool = True
) -> str:
    """How often a chorus is played before the next printed one, and if its pick-up is once.

    `own_bars`: say too which bars of the last time are its own.
    """
    if printed.changed:
        return ""
    note = times_words(len(printed.choruses))
    if following and following.changed:
        note = times_words(len(printed.choruses) + len(following.choruses))
        if own_bars:
            note = own_bars_words(note, [at + 1 for at in following.changed])
    opens = printed.choruses[0].number == 1
    return pickup_once_words(note) if opens and tune.pickup_once else note
