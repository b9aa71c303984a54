"""What a player would object to in a recast, though each of its notes fits.

Only what the lick itself does not do is objected to. That these things spoil a lick is common
practice, no source; the numbers are our own choice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from formsheet.arrange.cost import FIRST_HIGH_HOLE
from formsheet.judge.effort import move
from formsheet.judge.fit import NoteFit
from formsheet.judge.verdicts import Verdict
from formsheet.lesson.model import Facts
from formsheet.music.tab import Shape, Tab
from formsheet.recast.candidates import Recast, seconds
from formsheet.recast.character import Character
from formsheet.recast.played import Played
from formsheet.tune.timeline import Note
from formsheet.vocabulary.facts import Level

_OCTAVE = 12
#: The share of the moves that may go in another direction than in the lick: with more of them it is
#: another melody.
MOST_MOVED = Fraction(1, 4)
#: Holes by which the mouth may move more in a train than it does in the lick.
FURTHER_IN_A_TRAIN = 1
#: Half steps of bends that may come in a hurry, more than in the lick: one shallow bend for a
#: beginner, one deep one for an improver.
HURRIED_BENDS = {Level.BEGINNER: 1, Level.IMPROVER: 2, Level.ADVANCED: 4}
#: Seconds that a note on holes 8 to 10 must last: there blow and draw change places and the holes
#: feel narrow. Advanced players know the way.
SHORTEST_HIGH = {Level.BEGINNER: 0.7, Level.IMPROVER: 0.3}
#: The most seconds on one breath without a rest, for a lick that has both.
LONGEST_BREATH = 6.0


def objections(home: Character, recast: Recast, played: Played) -> Iterator[str]:
    """Each objection in words."""
    for check in CHECKS:
        yield from check(home, recast, played)


def leaps(home: Character, recast: Recast, _: Played) -> Iterator[str]:
    """Leaps of more than an octave."""
    for (first, here), (second, there) in pairwise(zip(recast.wanted, recast.choices, strict=True)):
        old = abs(second.sound.midi[-1] - first.sound.midi[-1])
        new = abs(there.midi[-1] - here.midi[-1])
        if new > _OCTAVE >= old:
            yield f"`{here.tab}` to `{there.tab}` leaps more than an octave"
            return


def line(home: Character, recast: Recast, _: Played) -> Iterator[str]:
    """A line that has become another one; a single repeated note is allowed."""
    most = MOST_MOVED * (len(recast.choices) - 1)
    if recast.torn or (recast.contour > 1 and recast.moved > most):
        yield "it does not keep the lick's line"


def chords(home: Character, recast: Recast, _: Played) -> Iterator[str]:
    """One chord of the lick that becomes several, or chords of which some become single notes."""
    shapes = {choice.tab.shape is Shape.SINGLE for choice in recast.choices}
    if len(shapes) > 1 and all(wanted.many for wanted in recast.wanted):
        yield "some chords become single notes"
    found: dict[object, Tab] = {}
    for wanted, choice in zip(recast.wanted, recast.choices, strict=True):
        if wanted.many:
            first = found.setdefault((wanted.mark.tab, wanted.new), choice.tab)
            if first != choice.tab:
                yield f"`{wanted.mark.tab}` becomes {first} here and {choice.tab} there"
                return


def train(home: Character, recast: Recast, _: Played) -> Iterator[str]:
    """A train in which the mouth has to move over the holes."""
    if not (home.breath and home.breath.turns):
        return
    tabs = [choice.tab for choice in recast.choices]
    old, new = (max(_holes_moved(each), default=0) for each in (home.tabs, tabs))
    if new > old + FURTHER_IN_A_TRAIN:
        yield f"the mouth moves {new} holes to and fro"


def _holes_moved(tabs: Sequence[Tab]) -> list[int]:
    """The holes moved from each block or split to the next."""
    pairs = pairwise(tabs)
    return [abs(a.holes[0] - b.holes[0]) for a, b in pairs if len(a.holes) > 1 < len(b.holes)]


def bends(home: Character, recast: Recast, _: Played) -> Iterator[str]:
    """Bends that come in a hurry."""
    tabs = [choice.tab for choice in recast.choices]
    gaps = [seconds(each.sound.gap, home.facts) for each in recast.wanted]
    more = _hurried(tabs, gaps) - _hurried(home.tabs, gaps)
    if more > HURRIED_BENDS[home.facts.level]:
        yield "its bends come too fast"


def _hurried(tabs: Sequence[Tab], gaps: Sequence[float]) -> int:
    """Half steps of all bends for which there is less time than the move takes at ease."""
    found = 0
    for (first, second), gap in zip(pairwise(tabs), gaps[1:], strict=True):
        moves = move(first, second)
        if moves.bend and gap < moves.seconds:
            found += moves.bend
    return found


def high_holes(home: Character, recast: Recast, played: Played) -> Iterator[str]:
    """Short notes on the top holes, more than in the lick."""
    old, new = (
        _short_and_high(each.notes, home.facts) for each in (home.placement, played.placement)
    )
    if len(new) > len(old):
        yield f"`{new[0].tab}` is high for so short a note"


def _short_and_high(notes: Sequence[NoteFit], facts: Facts) -> list[Note]:
    least = SHORTEST_HIGH.get(facts.level, 0.0)
    return [
        fit.note
        for fit in notes
        if max(fit.note.tab.holes) >= FIRST_HIGH_HOLE and seconds(fit.note.duration, facts) < least
    ]


def ending(home: Character, recast: Recast, played: Played) -> Iterator[str]:
    """A last note that is of its chord in the lick, and is neither that nor blue in the recast."""
    notes = played.placement.notes
    if home.ends_on_chord and notes and notes[-1].verdict > Verdict.IDIOMATIC:
        yield f"it ends on the {' '.join(notes[-1].degrees)}"


def breath(home: Character, recast: Recast, played: Played) -> Iterator[str]:
    """A long time on one breath without a rest."""
    longest = _longest_breath([fit.note for fit in played.placement.notes], home.facts)
    if longest > LONGEST_BREATH and len({tab.breath for tab in home.tabs}) > 1:
        yield f"{longest:.0f} seconds on one breath"


def _longest_breath(notes: Sequence[Note], facts: Facts) -> float:
    """The longest time on one breath without a rest, in seconds."""
    longest = since = 0.0
    before: Note | None = None
    for note in notes:
        goes_on = before and before.tab.breath is note.tab.breath and before.end == note.start
        since = (since if goes_on else 0.0) + seconds(note.duration, facts)
        longest, before = max(longest, since), note
    return longest


CHECKS: tuple[Callable[[Character, Recast, Played], Iterator[str]], ...] = (
    leaps,
    line,
    chords,
    train,
    bends,
    high_holes,
    ending,
    breath,
)
