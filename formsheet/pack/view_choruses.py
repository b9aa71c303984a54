"""Which choruses are printed, and how: alike ones once, a last time by its changed bars alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from formsheet.lesson.model import Kind
from formsheet.pack import view
from formsheet.pack.sheet_words import (
    again_words,
    chorus_words,
    last_time_words,
    own_bars_words,
    times_words,
)
from formsheet.tune.timeline import Chorus, Tune

MOST_CHANGED = 4  # bars, one line's worth: with more of them a last time is printed whole


@dataclass(frozen=True, slots=True)
class Printed:
    """Choruses that are alike, printed once; `changed`: only these of its bars, from 0."""

    choruses: tuple[Chorus, ...]
    changed: tuple[int, ...] = ()
    of: Printed | None = None  # the choruses from which the changed bars differ

    @property
    def last_time(self) -> bool:
        """The last pass of a play line, printed apart from those before it."""
        first, last = self.choruses[0], self.choruses[-1]
        return last.pass_number == last.passes > len(self.choruses) and first.pass_number > 1


def printed_choruses(tune: Tune) -> list[Printed]:
    """The choruses as they are printed, in order."""
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
    """Places (from 0) of the bars that go otherwise, each from the start of its lick on."""
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
    return bar.chords, bar.lick and bar.lick.name, bar.slot.bar_in_lick, bar.marks


def _goes_on(tune: Tune, index: int) -> bool:
    """Whether a bar begins inside a lick, or with a note of the bar before it."""
    bar = tune.bars[index]
    held = bool(bar.marks) and bar.marks[0].mark.kind is Kind.HOLD
    return held or (bar.lick is not None and bar.slot.bar_in_lick > 0)


def title_of(printed: Printed, alone: bool) -> str:
    """What stands over a chorus; `alone`: it needs no number, since there is no other."""
    home = printed.of or printed
    first = home.choruses[0]
    last = (printed if printed.of else home).choruses[-1]
    title = first.title or ("" if alone else chorus_words(first.number, last.number))
    if printed.changed:
        return last_time_words(title, [at + 1 for at in printed.changed])
    return last_time_words(title, []) if printed.last_time else title


def chorus_views(
    tune: Tune, drawn: Sequence[view.Bar], *, compact: bool = False
) -> tuple[view.Chorus, ...]:
    """The choruses to print, from the drawn-up bars of the whole tune."""
    printed = printed_choruses(tune)
    alone = sum(not each.changed for each in printed) == 1
    zero = drawn[0] if tune.bars[0].number == 0 else None
    made = []
    for at, each in enumerate(printed):
        following = printed[at + 1] if at + 1 < len(printed) else None
        lines = tuple(_lines(tune, each, drawn))
        made.append(
            view.Chorus(
                title_of(each, alone),
                _note(each, following),
                tuple(compacted(lines)) if compact else lines,
                pickup=None if at else zero,
                across=max(map(len, tune.lesson.form.lines)) if each.changed else 0,
                stands_for=_stands_for(each, following),
            )
        )
    return tuple(made)


def _stands_for(printed: Printed, following: Printed | None) -> tuple[tuple[int, ...], ...]:
    """For each printed bar, the bars of the tune (indices) that are played from it."""
    played: dict[int, list[int]] = {}
    for chorus in printed.choruses:
        for at, index in enumerate(chorus.bars):
            if not printed.changed or at in printed.changed:
                played.setdefault(at, []).append(index)
    if following and following.changed:
        for at, index in enumerate(following.choruses[0].bars):
            if at not in following.changed:
                played[at].append(index)
    return tuple(map(tuple, played.values()))


def _note(printed: Printed, following: Printed | None) -> str:
    if printed.changed:
        return ""
    if following and following.changed:
        times = times_words(len(printed.choruses) + len(following.choruses))
        return own_bars_words(times, [at + 1 for at in following.changed])
    return times_words(len(printed.choruses))


def _lines(
    tune: Tune, printed: Printed, drawn: Sequence[view.Bar]
) -> Iterator[tuple[view.Bar, ...]]:
    bars = [drawn[index] for index in printed.choruses[0].bars]
    if printed.changed:
        yield tuple(bars[at] for at in printed.changed)
        return
    done = 0
    for line in tune.lesson.form.lines:
        yield tuple(bars[done : done + len(line)])
        done += len(line)


def compacted(lines: Iterable[Sequence[view.Bar]]) -> Iterator[tuple[view.Bar, ...]]:
    """Lines in which a bar that was printed before says so, and no more."""
    seen: dict[tuple[object, ...], int] = {}
    for line in lines:
        yield tuple(_once(bar, seen) for bar in line)


def _once(bar: view.Bar, seen: dict[tuple[object, ...], int]) -> view.Bar:
    if not bar.lick or not bar.marks or bar.marks[0].hold or bar.marks[-1].tied_on:
        return bar
    key = (bar.lick, tuple(replace(mark, landing=False) for mark in bar.marks), bar.feels)
    if key not in seen:
        seen[key] = bar.number
        return bar
    again = again_words(seen[key])
    head = bar.spoken.partition(": ")[0]
    return replace(bar, marks=(), counts=(), feels=(), again=again, spoken=f"{head}: {again}.")
