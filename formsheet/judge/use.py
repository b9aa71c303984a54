"""Is everything that is written also played?"""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.lesson.model import Lick
from formsheet.music.form import Form
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.passages import lick_passages
from formsheet.tune.place import meets, range_words
from formsheet.tune.timeline import Bar, Tune


def use_findings(tune: Tune) -> list[Problem]:
    """Licks and pick-ups that no bar plays, licks not played whole, a pick-up without a count."""
    return [*_unused(tune), *_cut(tune), *_pickups(tune), *_commas(tune)]


def _commas(tune: Tune) -> Iterator[Problem]:
    """Licks on a choice of chords that are always played over one of them a bar, in their order."""
    played: dict[str, list[Bar]] = {}
    for bar in tune.bars:
        if bar.lick:
            played.setdefault(bar.lick.name, []).append(bar)
    for name, bars in played.items():
        lick = bars[0].lick
        if lick and len(lick.bars) > 1 and all(_in_turn(bar, lick) for bar in bars):
            choice = [str(chord) for chord in lick.on[0][0]]
            asked, apart = ", ".join(choice), " | ".join(choice)
            yield kinds.CommaForBar(lick.on_span, lick=name, asked=asked, apart=apart)


def _in_turn(bar: Bar, lick: Lick) -> bool:
    """Whether a bar has the one of a lick's alternatives that is as far on as the bar is in it."""
    if set(map(len, lick.on)) != {1} or len(set(lick.on)) > 1 or len(bar.chords) > 1:
        return False
    (choice,), (_, chord) = lick.on[0], bar.chords[0]
    met = [place for place, each in enumerate(choice) if chord.meets(each)]
    return len(choice) == len(lick.bars) and met == [bar.slot.bar_in_lick]


def _pickups(tune: Tune) -> Iterator[Problem]:
    """Pick-ups played once that are not played at all; one that needs a bar of count."""
    first = tune.bars[1 if tune.pickup else 0].lick
    played = {bar.lick.name: bar.lick for bar in tune.bars if bar.lick}
    for lick in played.values():
        if lick.pickup_once and not (first and first.name == lick.name):
            span = lick.pickup[0].span.to(lick.pickup[-1].span)
            yield kinds.PickupUnplayed(span, lick=lick.name, first=first.name if first else None)
    if tune.pickup and not tune.lesson.facts.count_in:
        yield kinds.PickupUncounted(tune.lesson.facts.places["count-in"])


def _cut(tune: Tune) -> Iterator[Problem]:
    """Licks of which only a part is played, because a last time replaces some of their bars.

    A lick that is never played whole is reported once: the handout cannot practise it.
    """
    whole = {lick.name for lick, _ in lick_passages(tune)}
    parts: dict[str, tuple[Lick, list[Bar]]] = {}
    for bars in _placed(tune):
        lick, slot = bars[0].lick, bars[0].slot
        if not lick or len(bars) == len(lick.bars):
            continue
        if lick.name not in whole:
            parts.setdefault(lick.name, (lick, []))[1].extend(bars)
            continue
        yield kinds.LickCut(slot.span, lick=lick.name, whole=len(lick.bars),
            part=[bar.slot.bar_in_lick + 1 for bar in bars], bars=[bar.number for bar in bars],
        )  # fmt: skip
    for lick, bars in parts.values():
        yield kinds.LickNowhereWhole(bars[0].slot.span, lick=lick.name,
            whole=len(lick.bars),
            bars=sorted({bar.number for bar in bars}),
        )  # fmt: skip


def _placed(tune: Tune) -> list[list[Bar]]:
    """The bars played of each round of each placed lick."""
    rounds: dict[tuple[object, ...], list[Bar]] = {}
    for bar in tune.bars:
        slot = bar.slot
        key = (slot.span.place, bar.chorus, bar.number - slot.bar_in_lick)
        rounds.setdefault(key, []).append(bar)
    return list(rounds.values())


def _unused(tune: Tune) -> list[Problem]:
    played = {bar.lick.name for bar in tune.bars if bar.lick}
    return [
        kinds.LickUnused(lick.span, lick=name, where=_place_for(lick, tune.lesson.form))
        for name, lick in tune.lesson.licks.items()
        if name not in played
    ]


def _place_for(lick: Lick, form: Form) -> str:
    """Bars of a form whose chords a lick is written for, as written in a play: "bars 11-12".

    The first such bars, of a turnaround the last; "" if there are none.
    """
    length = len(lick.bars)
    firsts = range(len(form.bars) - length + 1)
    for first in reversed(firsts) if lick.turnaround else firsts:
        if all(map(meets, form.bars[first : first + length], lick.on)):
            return range_words(first + 1, first + length)
    return ""
