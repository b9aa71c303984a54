"""Which lick instead? A bar with no lick, or with a wrong one, is answered with those that fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from formsheet.judge.where import Placement, over
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.form import FormBar
from formsheet.problems.problem import Problem

_MOST_OFFERS = 3


def with_offers(problems: Sequence[Problem], lesson: Lesson) -> list[Problem]:
    """The problems; those about a stretch of chords carry the licks that fit it, best first."""
    return [
        replace(problem, facts=problem.facts | _offers(problem.facts, lesson))
        if "stretch" in problem.facts
        else problem
        for problem in problems
    ]


def _offers(facts: dict[str, Any], lesson: Lesson) -> dict[str, Any]:
    """Licks written for these chords, then others of the lesson that fit, then shelved ones."""
    stretch, wrong = facts["stretch"], facts.get("lick")
    own = [lick for name, lick in lesson.licks.items() if name != wrong]
    placed = _placed(own, stretch, lesson)
    written = [each.lick.name for each in placed if each.written_for]
    might = [each.lick.name for each in placed if not each.written_for and _fits(each)]
    shelf_of = {id(shelved.lick): shelved.shelf for shelved in lesson.shelved}
    shelved = [
        each.lick
        for each in _placed([shelved.lick for shelved in lesson.shelved], stretch, lesson)
        if each.written_for and _fits(each)
    ]
    shelf = shelf_of[id(shelved[0])] if shelved else ""
    return {
        "fitting": written[:_MOST_OFFERS],
        "best": written[0] if written else "",
        "might": might[:_MOST_OFFERS],
        "shelved": [lick.name for lick in shelved if shelf_of[id(lick)] == shelf][:_MOST_OFFERS],
        "take": shelved[0].name if shelved else "",
        "shelf": shelf,
    }


def _placed(licks: Sequence[Lick], stretch: Sequence[FormBar], lesson: Lesson) -> list[Placement]:
    """The licks of the stretch's length over it, the best first."""
    found = [
        Placement(lick, tuple(stretch), (), over(lick, stretch, lesson))
        for lick in licks
        if len(lick.bars) == len(stretch)
    ]
    return sorted(found, key=lambda each: each.merit, reverse=True)


def _fits(placement: Placement) -> bool:
    """Whether a lick that is not written for these chords can be offered all the same."""
    good, landing = placement.landings
    return bool(placement.notes) and not placement.clashes and 2 * good >= landing
