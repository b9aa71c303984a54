"""Is the tab written for another position of this harp?

In a wrong position most bars clash, and all that is to be said of them has this one cause. So where
more than half of the bars that sound hold warnings about the fit, the same tab is judged in every
other position; if it hardly clashes in one of them, that is said, once, in place of all else about
the fit. Of positions that are equally good, blues players try 2nd, 3rd and 1st first (common
practice, no source); the rule and its numbers are our own choice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from formsheet.judge.findings import Reported, reported
from formsheet.judge.fit import BarFit, Heard, judge_fit
from formsheet.music.key import POSITIONS, position_name, song_key
from formsheet.problems import kinds
from formsheet.problems.edits import fact_set
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Tune

#: Share of the bars that sound: more of them must hold warnings.
WRONG_SHARE = Fraction(1, 2)
#: Bars that must hold warnings: fewer say nothing about a key.
FEWEST_BARS = 3
#: Different notes (each a tab of a lick) that must clash or be the key note over V: one alone is
#: a slip in that note.
FEWEST_NOTES = 2
#: Share of the bars that sound: in a better position no more of them may hold warnings. A bar in a
#: form of eight or of twelve.
HARDLY_ANY = Fraction(1, 8)
#: The positions in the order in which blues players think of them.
_PREFERRED = (2, 3, 1, *range(4, len(POSITIONS) + 1))
_OFF = frozenset({Heard.CLASHES, Heard.KEY_NOTE})


def position_finding(tune: Tune, fits: Sequence[BarFit]) -> Problem | None:
    """The finding that the tab is written for another position; None if it is not."""
    off = [each for each in reported(fits) if each.heard in _OFF]
    clashing = _bars(off)
    if clashing < FEWEST_BARS:
        return None
    sounding = sum(fit.score is not None for fit in fits)
    notes = {(tune.lick_of(each.fit.note), each.fit.note.tab) for each in off}
    if clashing <= WRONG_SHARE * sounding or len(notes) < FEWEST_NOTES:
        return None
    position, left = _best_other(tune)
    if left > HARDLY_ANY * sounding:
        return None
    facts = tune.lesson.facts
    better = position_name(position)
    return kinds.PositionWrong(
        facts.places.get("position") or facts.places["harp"],
        clashing=clashing,
        sounding=sounding,
        position=position_name(facts.position),
        better=better,
        left=left,
        edit=fact_set(facts.places, "position", better),
    )


def _bars(found: Sequence[Reported]) -> int:
    """The number of bars that hold warnings."""
    return len(
        {
            each.stretch.bar
            for each in found
            if each.heard is Heard.CLASHES and not each.fit.note.mark.deliberate
        }
    )


def _best_other(tune: Tune) -> tuple[int, int]:
    """The position, 1 to 12, in which the fewest bars hold warnings; and how many do."""
    facts, best = tune.lesson.facts, (0, len(tune.bars) + 1)
    for position in _PREFERRED:
        if position != facts.position:
            left = _bars([*reported(judge_fit(_in_position(tune, position)))])
            if left < best[1]:
                best = position, left
            if not left:
                break
    return best


def _in_position(tune: Tune, position: int) -> Tune:
    """The same tab and the same chords in another position, and so in another key."""
    lesson = tune.lesson
    key = song_key(lesson.facts.harp.key, position, lesson.form.minor)
    facts = replace(lesson.facts, position=position)
    return tune._replace(lesson=replace(lesson, facts=facts, key=key))
