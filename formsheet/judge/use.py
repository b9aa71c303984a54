"""Is everything that is written also played?"""

from __future__ import annotations

from itertools import pairwise

from formsheet.problems.problem import Problem, remark
from formsheet.tune.timeline import Tune


def use_findings(tune: Tune) -> list[Problem]:
    """Licks of the lesson that no bar plays, and licks that are not played to their end."""
    return _unused(tune) + _cut(tune)


def _cut(tune: Tune) -> list[Problem]:
    """Licks of which the last time, placed over some of their bars, leaves a part."""
    found = {}
    for bar, after in [*pairwise(tune.bars), (tune.bars[-1], None)]:
        lick, slot = bar.lick, bar.slot
        if not lick or slot.bar_in_lick + 1 == len(lick.bars):
            continue
        if (
            after is None
            or after.lick is not lick
            or after.slot.bar_in_lick != slot.bar_in_lick + 1
        ):
            found[(slot.span.place, bar.number)] = remark(
                "lick-cut", slot.span, lick=lick.name, whole=len(lick.bars),
                played=slot.bar_in_lick + 1, bars=[bar.number],
            )  # fmt: skip
    return list(found.values())


def _unused(tune: Tune) -> list[Problem]:
    played = {id(bar.lick) for bar in tune.bars if bar.lick}
    return [
        remark("lick-unused", lick.span, lick=name)
        for name, lick in tune.lesson.licks.items()
        if id(lick) not in played
    ]
