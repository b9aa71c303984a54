"""The most that one file may hold: a lesson that multiplies itself is reported, not expanded."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate

from formsheet.language import tree as t
from formsheet.language.recovery import Unread
from formsheet.lesson.brackets import MOST_MARKS
from formsheet.problems import kinds
from formsheet.problems.problem import Problem

#: Most marks in all licks and rhythms of a file, repeats expanded: far beyond any lesson.
MOST_MARKS_OF_FILE = 20_000


def within_the_most(
    tree: t.FileTree, used: Mapping[str, Sequence[t.AnyMark] | Unread]
) -> tuple[list[t.RhythmBlock], list[t.LickBlock], list[Problem]]:
    """The rhythms and licks of a file up to the most marks that it may hold.

    `used` are the rhythms that it takes from shelves, their repeats expanded.
    """
    blocks: list[t.RhythmBlock | t.LickBlock] = [*tree.rhythms, *tree.licks]
    blocks.sort(key=lambda block: block.name.span.start)
    rhythm_lengths = {
        name: 0 if isinstance(marks, Unread) else len(marks) for name, marks in used.items()
    } | {rhythm.name.text: length_written_out(rhythm.marks) for rhythm in tree.rhythms}
    lengths = accumulate(_length(block, rhythm_lengths) for block in blocks)
    fitting = sum(length <= MOST_MARKS_OF_FILE for length in lengths)
    problems: list[Problem] = [
        kinds.FileTooLong(block.name.span, most=MOST_MARKS_OF_FILE)
        for block in blocks[fitting : fitting + 1]
    ]
    rhythms = [block for block in blocks[:fitting] if isinstance(block, t.RhythmBlock)]
    licks = [block for block in blocks[:fitting] if isinstance(block, t.LickBlock)]
    return rhythms, licks, problems


def _length(block: t.RhythmBlock | t.LickBlock, rhythms: Mapping[str, int]) -> int:
    """The number of marks in a block; a lick in a rhythm has as many as the rhythm."""
    length = length_written_out(block.marks)
    if isinstance(block, t.LickBlock):
        length += sum(length_written_out(line.marks) for line in block.pickups)
        if block.line and block.line.rhythm:
            length = max(length, rhythms.get(block.line.rhythm.text, 0))
    return length


def length_written_out(marks: Sequence[t.AnyMark]) -> int:
    """The number of marks with repeats expanded, computed without expanding them.

    A bracket that is too large by itself is reported elsewhere, and counts once.
    """
    levels = [0]
    for mark in marks:
        sign = mark.sign if isinstance(mark, t.Mark) else None
        if sign is t.Sign.OPEN:
            levels.append(0)
        elif isinstance(mark, t.Mark) and sign is t.Sign.CLOSE and len(levels) > 1:
            group = levels.pop()
            whole = group * (mark.times or 1)
            levels[-1] += whole if whole <= MOST_MARKS else group
        else:
            levels[-1] += 1
    return sum(levels)
