"""Notes that are beyond a level, however they are reached."""

from __future__ import annotations

from formsheet.judge.effort import FIRST_TOP_HOLE
from formsheet.judge.level import LOW_REED, Limits
from formsheet.tune.timeline import Note
from formsheet.vocabulary.facts import Level


def beyond_level(note: Note, limits: Limits) -> bool:
    """Whether a note is reported itself: nothing is said of the moves to and from it."""
    tab = note.tab
    return (
        tab.bend > limits.deepest_bend
        or (tab.overbend and not limits.overbends)
        or too_high(note, limits)
        or too_short(note, limits)
    )


def too_high(note: Note, limits: Limits) -> bool:
    """Whether a note is a bend on a top hole, or a very high one, beyond the level."""
    if not note.tab.bend:
        return False
    top = note.tab.holes[0] >= FIRST_TOP_HOLE and not limits.top_bends
    return top or note.midi[0] > limits.highest_bend


def too_short(note: Note, limits: Limits) -> bool:
    """Whether a note is shorter than its reed needs: a low one of a low harp."""
    return note.midi[0] < LOW_REED and note.end_s - note.start_s < limits.low_reed


def level_words(level: Level) -> str:
    """A student of a level in words: "an improver", "an advanced student"."""
    who = "advanced student" if level is Level.ADVANCED else level.value
    return f"{'an' if who[0] in 'aeiou' else 'a'} {who}"
