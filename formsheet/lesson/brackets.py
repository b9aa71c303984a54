"""Groups: `[ ... ]x3` written out."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.language.tree import AnyMark, Mark, Sign
from formsheet.problems.problem import Problem, Related, error

#: Marks of one lick after its brackets are written out: far beyond any lick, so that a slip
#: such as `]x999` is told and not drawn.
MOST_MARKS = 2000
_MOST_TIMES = 99


def written_out(marks: Sequence[AnyMark]) -> tuple[list[AnyMark], list[Problem]]:
    """The marks with every bracket played as often as it says."""
    problems: list[Problem] = []
    opened: list[Mark] = []
    levels: list[list[AnyMark]] = [[]]
    for mark in marks:
        sign = mark.sign if isinstance(mark, Mark) else None
        if sign is Sign.OPEN:
            assert isinstance(mark, Mark)
            opened.append(mark)
            levels.append([])
        elif sign is Sign.CLOSE:
            assert isinstance(mark, Mark)
            if not opened:
                problems.append(error("bracket-not-open", mark.span))
                continue
            start = Related(opened.pop().span, "opened here")
            group = levels.pop()
            times = mark.times
            if times is None:
                problems.append(error("bracket-no-count", mark.span, start))
            elif not 1 <= times <= _MOST_TIMES:
                problems.append(error("bracket-times", mark.span, times=times, most=_MOST_TIMES))
            elif len(levels[-1]) + len(group) * times > MOST_MARKS:
                problems.append(error("lick-too-long", mark.span, start, most=MOST_MARKS))
            else:
                group = group * times
            levels[-1] += group
        else:
            levels[-1].append(mark)
    problems += [error("bracket-not-closed", mark.span) for mark in opened]
    return [mark for level in levels for mark in level], problems
