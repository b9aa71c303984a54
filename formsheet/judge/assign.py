"""Which lick instead? Finds the licks that fit a bar without a lick, or with a wrong one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice

from formsheet.judge.fit import has_blue_notes
from formsheet.judge.where import WELL, Placement, over
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.form import FormBar
from formsheet.problems import kinds
from formsheet.problems.problem import Problem

_MOST_OFFERS = 3
#: Limit for the notes and rests of the licks tried for one lesson: more than the mistakes of any
#: lesson need, and few enough to take less than a second.
_MOST_TRIED = 5000


def with_offers(problems: Sequence[Problem], lesson: Lesson) -> list[Problem]:
    """The problems; those that ask for a lick over some chords carry the licks that fit there."""
    if not any(isinstance(problem, kinds.LickWanted) for problem in problems):
        return list(problems)
    offers = _LicksTried(lesson)
    return [
        problem.replaced(offers=offers.over(problem.chords))
        if isinstance(problem, kinds.LickWanted)
        else problem
        for problem in problems
    ]


_Chords = tuple[FormBar, ...]  # of some bars


class _LicksTried:
    """The licks of a lesson and of its shelves, each tried once over the same chords."""

    def __init__(self, lesson: Lesson) -> None:
        self.lesson = lesson
        self.blue = has_blue_notes(lesson)
        self.shelf_of = {_written(each.lick): each.shelf for each in lesson.shelved}
        self.own = _by_length(lesson.licks.values())
        self.shelved = _by_length(shelved.lick for shelved in lesson.shelved)
        self.left = _MOST_TRIED
        self.found: dict[_Chords, kinds.Offers] = {}

    def over(self, stretch: _Chords) -> kinds.Offers:
        """Licks written for these chords, other licks of the lesson that fit, and shelved ones."""
        if stretch not in self.found:
            self.found[stretch] = self._find(stretch)
        return self.found[stretch]

    def _find(self, stretch: _Chords) -> kinds.Offers:
        own = self._placed(self.own, stretch)
        others = self._placed(self.shelved, stretch)
        shelved = [each.lick for each in others if each.written_for and not each.clashes]
        shelf = self.shelf_of[_written(shelved[0])] if shelved else ""
        near = (lick.name for lick in shelved if self.shelf_of[_written(lick)] == shelf)
        return kinds.Offers(
            [each.lick.name for each in own if each.written_for],
            [each.lick.name for each in own if not each.written_for and _fits_well(each)],
            [*islice(near, _MOST_OFFERS)],
            shelf,
        )

    def _placed(self, licks: dict[int, list[Lick]], stretch: _Chords) -> list[Placement]:
        """The licks with as many bars as the stretch, placed over it; best first."""
        found = []
        for lick in licks.get(len(stretch), ()):
            self.left -= sum(map(len, lick.bars)) or 1
            if self.left < 0:
                break
            found.append(Placement(lick, stretch, (), over(lick, stretch, self.lesson, self.blue)))
        return sorted(found, key=lambda each: each.merit, reverse=True)


def _written(lick: Lick) -> tuple[object, ...]:
    """A key for a shelved lick: its name and where it is written."""
    return lick.name, lick.span.place


def _by_length(licks: Iterable[Lick]) -> dict[int, list[Lick]]:
    """Licks by their number of bars."""
    found: dict[int, list[Lick]] = {}
    for lick in licks:
        found.setdefault(len(lick.bars), []).append(lick)
    return found


def _fits_well(placement: Placement) -> bool:
    """Whether a lick not written for these chords may be offered for them. Our own choice.

    One that only goes there, as a riff of the key does over V, is not what the bar needs.
    """
    return bool(placement.notes) and placement.verdict == WELL
