"""Expand repeated groups: `[ ... ]x3`."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.language.tree import AnyMark, Mark, Sign
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related

#: Most marks of a lick after expansion: far beyond any lick, so that a slip such as `]x999` is
#: reported and not drawn.
MOST_MARKS = 2000
_MOST_TIMES = 99


def written_out(marks: Sequence[AnyMark]) -> tuple[list[AnyMark], list[Problem]]:
    """The marks with every group repeated as often as it says."""
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
                problems.append(kinds.BracketNotOpen(mark.span))
                continue
            start = Related(opened.pop().span, "opened here")
            group = levels.pop()
            times = mark.times
            if times is None:
                problems.append(kinds.BracketNoCount(mark.span, (start,)))
            elif not 1 <= times <= _MOST_TIMES:
                problems.append(kinds.BracketTimes(mark.span, times=times, most=_MOST_TIMES))
            elif len(levels[-1]) + len(group) * times > MOST_MARKS:
                problems.append(kinds.LickTooLong(mark.span, (start,), most=MOST_MARKS))
            else:
                problems += _carried_round(group, levels, mark, start)
                group = group * times
            if levels[-1]:
                levels[-1] += group
            else:
                levels[-1] = group  # no copies, however deep the nesting
        else:
            levels[-1].append(mark)
    problems += [kinds.BracketNotClosed(mark.span) for mark in opened]
    return [mark for level in levels for mark in level], problems


def _carried_round(
    group: Sequence[AnyMark], before: Sequence[Sequence[AnyMark]], close: Mark, start: Related
) -> list[Problem]:
    """A group that starts with the value in force and ends in another: its rounds differ."""
    if close.times == 1:
        return []
    last_value = next((mark for mark in reversed(group) if _value(mark)), None)
    timed = (mark for mark in group if not _is(mark, Sign.SWING, Sign.STRAIGHT))
    if last_value is None or _value(next(timed)):
        return []
    first_value = next(
        (m for level in reversed(before) for m in reversed(level) if _value(m)), None
    )
    if first_value is None:
        return []
    first, last = first_value.span.text, last_value.span.text
    if first == last:
        return []
    return [kinds.ValueCarriedRound(close.span, (start,), first=first, last=last)]


def _value(mark: AnyMark) -> bool:
    return _is(mark, Sign.VALUE)


def _is(mark: AnyMark, *signs: Sign) -> bool:
    return isinstance(mark, Mark) and mark.sign in signs
