"""Is everything that is written also played?"""

from __future__ import annotations

from formsheet.problems.problem import Problem, remark
from formsheet.tune.timeline import Tune


def use_findings(tune: Tune) -> list[Problem]:
    """Licks of the lesson that no bar plays."""
    played = {id(bar.lick) for bar in tune.bars if bar.lick}
    return [
        remark("lick-unused", lick.span, lick=name)
        for name, lick in tune.lesson.licks.items()
        if id(lick) not in played
    ]
