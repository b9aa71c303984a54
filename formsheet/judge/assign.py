"""Which lick instead? A bar with no lick, or with a wrong one, is answered with those that fit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import islice
from typing import Any, NamedTuple

from formsheet.judge.where import Placement, over
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.form import FormBar
from formsheet.problems.problem import Problem

_MOST_OFFERS = 3
#: Notes and rests of the licks that are tried for one lesson: more than any lesson's mistakes
#: need, and few enough that trying them takes no second.
_MOST_TRIED = 5000


def with_offers(problems: Sequence[Problem], lesson: Lesson) -> list[Problem]:
    """The problems; those about a stretch of chords carry the licks that fit it, best first."""
    if not any("stretch" in problem.facts for problem in problems):
        return list(problems)
    offers = _Offers(lesson)
    return [
        replace(problem, facts=problem.facts | offers.of(problem.facts))
        if "stretch" in problem.facts
        else problem
        for problem in problems
    ]


_Chords = tuple[FormBar, ...]  # of some bars


class _Found(NamedTuple):
    """Names of licks for some chords, the best first."""

    written: list[str]
    might: list[str]
    shelved: list[str]
    shelf: str  # that those lie on


class _Offers:
    """The licks of a lesson and of its shelves, each tried once over the same chords."""

    def __init__(self, lesson: Lesson) -> None:
        self.lesson = lesson
        self.shelf_of = {_written(each.lick): each.shelf for each in lesson.shelved}
        self.own = _by_length(lesson.licks.values())
        self.shelved = _by_length(shelved.lick for shelved in lesson.shelved)
        self.left = _MOST_TRIED
        self.found: dict[_Chords, _Found] = {}

    def of(self, facts: dict[str, Any]) -> dict[str, Any]:
        """Licks written for these chords, then others of the lesson that fit, then shelved ones."""
        stretch, wrong = facts["stretch"], facts.get("lick")
        if stretch not in self.found:
            self.found[stretch] = self._find(stretch)
        found = self.found[stretch]
        written, might = (
            [*islice((name for name in names if name != wrong), _MOST_OFFERS)]
            for names in (found.written, found.might)
        )
        return {
            "fitting": written,
            "best": written[0] if written else "",
            "might": might,
            "shelved": found.shelved,
            "take": found.shelved[0] if found.shelved else "",
            "shelf": found.shelf,
        }

    def _find(self, stretch: _Chords) -> _Found:
        own = self._placed(self.own, stretch)
        others = self._placed(self.shelved, stretch)
        shelved = [each.lick for each in others if each.written_for and _fits(each)]
        shelf = self.shelf_of[_written(shelved[0])] if shelved else ""
        near = (lick.name for lick in shelved if self.shelf_of[_written(lick)] == shelf)
        return _Found(
            [each.lick.name for each in own if each.written_for],
            [each.lick.name for each in own if not each.written_for and _fits(each)],
            [*islice(near, _MOST_OFFERS)],
            shelf,
        )

    def _placed(self, licks: dict[int, list[Lick]], stretch: _Chords) -> list[Placement]:
        """The licks of the stretch's length over it, the best first."""
        found = []
        for lick in licks.get(len(stretch), ()):
            self.left -= sum(map(len, lick.bars)) or 1
            if self.left < 0:
                break
            found.append(Placement(lick, stretch, (), over(lick, stretch, self.lesson)))
        return sorted(found, key=lambda each: each.merit, reverse=True)


def _written(lick: Lick) -> tuple[object, ...]:
    """What tells shelved licks apart: the name, and where it is written."""
    return lick.name, lick.span.place


def _by_length(licks: Iterable[Lick]) -> dict[int, list[Lick]]:
    """Licks by their number of bars."""
    found: dict[int, list[Lick]] = {}
    for lick in licks:
        found.setdefault(len(lick.bars), []).append(lick)
    return found


def _fits(placement: Placement) -> bool:
    """Whether a lick that is not written for these chords can be offered all the same."""
    good, landing = placement.landings
    return bool(placement.notes) and not placement.clashes and 2 * good >= landing
