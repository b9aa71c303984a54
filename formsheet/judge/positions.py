"""Is the tab written for another position of this harp?

In a wrong position most bars clash, and all that is to be said of them has this one cause. So where
more than half of the bars that sound hold warnings about the fit, the same tab is judged in every
other position; if it hardly clashes in one of them, that is said, once, in place of all else about
the fit. Of positions that are equally good, blues players try 2nd, 3rd and 1st first (common
practice, no source); the rule and its numbers are our own choice.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.judge.findings import reported
from formsheet.judge.fit import BarFit, Heard, Judge
from formsheet.music.key import POSITIONS, position_name, song_key
from formsheet.problems import kinds
from formsheet.problems.edits import fact_set
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Note, Tune

#: Share of the bars that sound: more of them must hold warnings.
WRONG_SHARE = Fraction(1, 2)
#: Bars that must hold warnings: fewer say nothing about a key.
FEWEST_BARS = 4
#: Different tabs that must clash or be the key note over V: one alone is a slip in that note.
FEWEST_NOTES = 2
#: Share of the bars that sound: in a better position no more of them may hold warnings. A bar in a
#: form of eight or of twelve.
HARDLY_ANY = Fraction(1, 8)
#: The positions in the order in which blues players think of them, each once.
_PREFERRED = dict.fromkeys(("2nd", "3rd", "1st", *POSITIONS))
_OFF = frozenset({Heard.CLASHES, Heard.KEY_NOTE})


def position_finding(tune: Tune, fits: Sequence[BarFit]) -> Problem | None:
    """The finding that the tab is written for another position; None if it is not."""
    off = [each for each in reported(fits) if each.heard in _OFF]
    clashing = {each.stretch.bar for each in off if _is_warned_of(each.fit.note, each.heard)}
    if len(clashing) < FEWEST_BARS:
        return None
    sounding = sum(fit.score is not None for fit in fits)
    notes = {each.fit.note.tab for each in off}
    if len(clashing) <= WRONG_SHARE * sounding or len(notes) < FEWEST_NOTES:
        return None
    better = _best_other(tune, int(HARDLY_ANY * sounding))
    if better is None:
        return None
    name, left = better
    facts = tune.lesson.facts
    return kinds.PositionWrong(
        facts.places.get("position") or facts.places["harp"],
        clashing=len(clashing),
        sounding=sounding,
        position=position_name(facts.position),
        better=name,
        left=left,
        edit=fact_set(facts.places, "position", name),
    )


def _is_warned_of(note: Note, heard: Heard) -> bool:
    return heard is Heard.CLASHES and not note.mark.deliberate


def _best_other(tune: Tune, most: int) -> tuple[str, int] | None:
    """The name of the position in which the fewest bars hold warnings, and how many do.

    None if there are more than `most` in each.
    """
    best = None
    for name in _PREFERRED:
        position = POSITIONS.index(name) + 1
        if position != tune.lesson.facts.position:
            left = _clashing(_in_position(tune, position), most)
            if left is not None:
                best, most = (name, left), left - 1
    return best


def _clashing(tune: Tune, most: int) -> int | None:
    """The number of bars that hold warnings; None if there are more than `most`."""
    judge, found = Judge(tune), set[int]()
    for index in range(len(tune.notes)):
        fit = judge.note(index)
        for at, heard in enumerate(fit.heard):
            if _is_warned_of(fit.note, heard):
                found.add(fit.stretches[at].bar)
        if len(found) > most:
            return None
    return len(found)


def _in_position(tune: Tune, position: int) -> Tune:
    """The same tab and the same chords in another position, and so in another key."""
    lesson = tune.lesson
    key = song_key(lesson.facts.harp.key, position, lesson.form.minor)
    facts = lesson.facts._replace(position=position)
    return tune._replace(lesson=lesson._replace(facts=facts, key=key))
