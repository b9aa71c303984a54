"""The view of the lick map: for each chorus, the lick of each bar, and what changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from formsheet.sheet import view
from formsheet.sheet.sheet_words import REST
from formsheet.tune.chorus_words import bars_run, times_words
from formsheet.tune.passes import Printed, differing, printed_choruses, title_of
from formsheet.tune.timeline import Bar, Tune


def lick_map(tune: Tune) -> tuple[view.MapPart, ...]:
    """Each printed chorus as lines of licks."""
    printed = printed_choruses(tune)
    alone = sum(not each.changed for each in printed) == 1
    return tuple(
        view.MapPart(title_of(each, alone), _note(each, after), _rows(tune, each, printed[0]))
        for each, after in zip(printed, [*printed[1:], None], strict=True)
    )


def _note(each: Printed, after: Printed | None) -> str:
    """How often a chorus is played, including a last time that prints only changed bars."""
    if each.changed:
        return ""
    more = after.choruses if after and after.changed else ()
    return times_words(len(each.choruses) + len(more))


def _rows(tune: Tune, each: Printed, first: Printed) -> tuple[view.MapRow, ...]:
    chorus = each.choruses[0]
    new = set() if each is first else set(differing(tune, first.choruses[0], chorus))
    shown = each.changed or range(len(chorus.bars))
    rows, start = [], 0
    for line in tune.lesson.form.lines:
        places = [at for at in range(start, start + len(line)) if at in shown]
        if places:
            rows.append(tuple(_cells(tune, chorus.bars, places, start, new)))
        start += len(line)
    return tuple(rows)


def _cells(
    tune: Tune, bars: Sequence[int], places: Sequence[int], start: int, new: set[int]
) -> Iterator[view.MapCell]:
    """The bars of one line, grouped by lick; `start`: index of its first bar."""

    def lick_and_run(item: tuple[int, int]) -> tuple[str, bool, int]:
        order, at = item
        lick = tune.bars[bars[at]].lick
        return lick.title if lick else "", at in new, at - order

    for (title, changed, _), items in groupby(enumerate(places), lick_and_run):
        run = [at for _, at in items]
        begins = tuple(
            i for i, at in enumerate(run) if title and tune.bars[bars[at]].slot.bar_in_lick == 0
        )
        yield view.MapCell(
            bars=bars_run(run[0] + 1, run[-1] + 1),
            lick=title or REST,
            times=f"× {len(begins)}" if len(begins) > 1 else "",
            first=run[0] - start,
            span=len(run),
            chords=_chords(tune.bars[bars[at]] for at in run),
            begins=begins,
            changed=changed,
        )


def _chords(bars: Iterable[Bar]) -> str:
    """The numerals of some bars, each change once."""
    numerals = (chord.numeral for bar in bars for _, chord in bar.chords)
    return " ".join(numeral for numeral, _ in groupby(numerals))
