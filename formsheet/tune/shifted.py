"""A lick of several chords placed a bar or two beside the bars that have them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.lesson.asked import asked_words
from formsheet.lesson.model import BarsPlaced, Lesson, Lick, Play
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.tune.place import meets, range_words

_FARTHEST = 2  # bars


def with_shifts(problems: Sequence[Problem], lesson: Lesson) -> list[Problem]:
    """The problems; chords that are wrong by such a slip, and bars left empty by it, as one."""
    wrong = {each.span.place for each in problems if isinstance(each, kinds.LickWrongChord)}
    found = dict(_shifted(lesson, wrong)) if wrong else {}
    if not found:
        return list(problems)
    filled = {place: set(range(each.first, each.last + 1)) for place, each in found.items()}
    return [*found.values(), *(each for each in problems if not _explained(each, filled))]


def _explained(problem: Problem, filled: dict[tuple[str, int, int], set[int]]) -> bool:
    if isinstance(problem, kinds.LickWrongChord):
        return problem.span.place in filled
    return isinstance(problem, kinds.BarWithoutLick) and any(
        bars.issuperset(problem.bars) for bars in filled.values()
    )


def _shifted(
    lesson: Lesson, wrong: set[tuple[str, int, int]]
) -> Iterator[tuple[tuple[str, int, int], kinds.BarsShifted]]:
    """The place of each lick that is wrong by such a slip, and the problem."""
    for play in lesson.plays:
        for line in play.bars:
            if len(line.placed) > 1 or line.last_time:
                continue
            for placed in line.placed:
                lick = lesson.licks.get(placed.name)
                if (
                    lick
                    and placed.span.place in wrong
                    and (first := _meant(line, lick, play, lesson))
                ):
                    yield placed.span.place, _problem(line, lick, play, lesson, first)


def _meant(line: BarsPlaced, lick: Lick, play: Play, lesson: Lesson) -> int | None:
    """The first of the nearest bars that have the lick's chords and that no other line claims."""
    length = len(lick.bars)
    if line.last - line.first + 1 != length or len(set(lick.on)) < 2:
        return None
    form = play.form(lesson.form, False)
    claimed = {bar for other in play.bars if other is not line
               for bar in range(other.first, other.last + 1)}  # fmt: skip
    for distance in range(1, _FARTHEST + 1):
        for first in (line.first + distance, line.first - distance):
            if lick.turnaround and first + length <= len(form.bars):
                continue  # it ends a chorus
            numbers = range(first, first + length)
            if first < 1 or numbers[-1] > len(form.bars) or claimed.intersection(numbers):
                continue
            if all(meets(form.bars[n - 1], on) for n, on in zip(numbers, lick.on, strict=True)):
                return first
    return None


def _problem(
    line: BarsPlaced, lick: Lick, play: Play, lesson: Lesson, first: int
) -> kinds.BarsShifted:
    bars = play.form(lesson.form, False).bars[line.first - 1 : line.last]
    return kinds.BarsShifted(
        line.span,
        (Related(lick.on_span, f"written for {' | '.join(map(asked_words, lick.on))}"),),
        lick=lick.name,
        where=range_words(line.first, line.last),
        chords=" | ".join(" ".join(map(str, bar)) for bar in bars),
        first=first,
        last=first + len(lick.bars) - 1,
    )
