"""The choruses of the sheet: whole, or the bars of a last time that replace others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.sheet import view
from formsheet.sheet.tab_text import with_dashes
from formsheet.tune.chorus_words import instead_words, ordinal_times
from formsheet.tune.passes import Printed, note_of, printed_choruses, title_of
from formsheet.tune.timeline import Tune


def chorus_views(tune: Tune, drawn: Sequence[view.Bar]) -> tuple[view.Chorus, ...]:
    """The choruses to print, from the views of all bars of the tune."""
    printed = printed_choruses(tune)
    alone = sum(not each.changed for each in printed) == 1
    zero = drawn[0] if tune.pickup else None
    made = []
    for at, each in enumerate(printed):
        following = printed[at + 1] if at + 1 < len(printed) else None
        replaced = following is not None and bool(following.changed)
        made.append(
            view.Chorus(
                with_dashes(instead_words([place + 1 for place in each.changed]))
                if each.changed
                else title_of(each, alone),
                note_of(tune, each, following, own_bars=False),
                tuple(_lines(tune, each, drawn)),
                pickup=None if at else zero,
                places=each.changed,
                times=ordinal_times(len(each.choruses)) if replaced else "",
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
    bars = len(printed.choruses[0].bars)
    if printed.changed and printed.changed[-1] + 1 < bars:
        return "line"  # the bars after them are those of the times before
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
