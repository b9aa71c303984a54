"""The choruses of the sheet, in full or compact."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from formsheet.sheet import view
from formsheet.sheet.sheet_words import again_words
from formsheet.tune.passes import Printed, note_of, printed_choruses, title_of
from formsheet.tune.timeline import Tune


def chorus_views(
    tune: Tune, drawn: Sequence[view.Bar], *, compact: bool = False
) -> tuple[view.Chorus, ...]:
    """The choruses to print, from the views of all bars of the tune."""
    printed = printed_choruses(tune)
    alone = sum(not each.changed for each in printed) == 1
    zero = drawn[0] if tune.pickup else None
    made = []
    for at, each in enumerate(printed):
        following = printed[at + 1] if at + 1 < len(printed) else None
        lines = tuple(_lines(tune, each, drawn))
        made.append(
            view.Chorus(
                title_of(each, alone),
                note_of(tune, each, following),
                tuple(compacted(lines)) if compact else lines,
                pickup=None if at else zero,
                across=max(map(len, tune.lesson.form.lines)) if each.changed else 0,
                stands_for=_stands_for(each, following),
                ending=_ending(each, following),
                opens_repeat=_repeated(each, following) and (at > 0 or zero is not None),
            )
        )
    return tuple(made)


def _repeated(printed: Printed, following: Printed | None) -> bool:
    """Whether it is played more than once, including a last time that prints only changed bars."""
    again = following is not None and bool(following.changed)
    return not printed.changed and (len(printed.choruses) > 1 or again)


def _ending(printed: Printed, following: Printed | None) -> view.Ending:
    if _repeated(printed, following):
        return "repeat"
    return "double" if following else "final"


def _stands_for(printed: Printed, following: Printed | None) -> tuple[tuple[int, ...], ...]:
    """For each printed bar, the indices of the bars of the tune that are played from it."""
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
    """Lines in which a bar that was printed before only refers to it."""
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
