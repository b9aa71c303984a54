"""How much one file may hold: a lesson that multiplies itself is told, and not written out."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from formsheet.language import tree as t
from formsheet.lesson.brackets import MOST_MARKS
from formsheet.problems.problem import Problem, error

#: Marks of all licks and rhythms of one file, repeats written out: far beyond any lesson.
MOST_MARKS_OF_FILE = 20_000


def within_the_most(
    tree: t.FileTree,
) -> tuple[list[t.RhythmBlock], list[t.LickBlock], list[Problem]]:
    """The rhythms and licks of a file up to the most marks that it may hold."""
    blocks: list[t.RhythmBlock | t.LickBlock] = [*tree.rhythms, *tree.licks]
    blocks.sort(key=lambda block: block.name.span.start)
    lengths = accumulate(length_written_out(block.marks) for block in blocks)
    fitting = sum(length <= MOST_MARKS_OF_FILE for length in lengths)
    problems = [
        error("file-too-long", block.name.span, most=MOST_MARKS_OF_FILE)
        for block in blocks[fitting : fitting + 1]
    ]
    rhythms = [block for block in blocks[:fitting] if isinstance(block, t.RhythmBlock)]
    licks = [block for block in blocks[:fitting] if isinstance(block, t.LickBlock)]
    return rhythms, licks, problems


def length_written_out(marks: Sequence[t.AnyMark]) -> int:
    """How many marks there are with every bracket played as often as it says; none is made.

    A bracket that comes to too much by itself is told elsewhere, and counts once.
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
