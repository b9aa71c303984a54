"""The licks of the demo lessons that are written on the tonic chord, and recasts, for tests."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.arrange.choices import Choice
from formsheet.arrange.cost import Cost
from formsheet.arrange.fallbacks import Kept
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.chord import parse_chord
from formsheet.music.form import FormBar
from formsheet.recast.candidates import recast_of
from formsheet.recast.character import character
from formsheet.recast.offered import Offers, offers
from formsheet.recast.played import played
from formsheet.recast.target import plans, sounding, wanted_line, written_for
from formsheet.recast.trial import Tried, tried_recasts
from tests.judge.test_effort import tab
from tests.lessons import NAMES, demo


def lesson_named(name: str) -> Lesson:
    lesson = demo(name).lesson
    assert lesson
    return lesson


#: Lesson and lick, of all that are on I throughout.
HOME_LICKS = [
    (name, lick.name)
    for name in NAMES
    for lick in lesson_named(name).licks.values()
    if all(chord.root == 0 for bar in written_for(lick) for chord in bar)
]


def on(name: str, lick: str, numeral: str) -> tuple[Lesson, Lick, list[FormBar]]:
    """A lick and the chords that a numeral means in its lesson: IV is iv in a minor form."""
    lesson = lesson_named(name)
    wanted = lesson.licks[lick]
    minor = lesson.form.minor
    chord = parse_chord(numeral.lower() if minor else numeral)
    roots = [each for each in lesson.form.chords if each.root == chord.root]
    bar = (roots[0] if roots else chord,)
    return lesson, wanted, list(sounding([bar] * len(wanted.bars), lesson.form))


def tried(name: str, lick: str, numeral: str) -> list[Tried]:
    lesson, wanted, chords = on(name, lick, numeral)
    return all_tried(lesson, wanted, chords)


def all_tried(
    lesson: Lesson, lick: Lick, chords: Sequence[FormBar], overbends: bool = False
) -> list[Tried]:
    """Every recast of a lick, good or not, best first."""
    home = character(lick, lesson.facts, lesson.key, lesson.licks)
    return tried_recasts(home, lick, chords, lesson.licks, overbends)


def offered(name: str, lick: str, numeral: str) -> Offers:
    lesson, wanted, chords = on(name, lick, numeral)
    return all_offers(lesson, wanted, chords)


def all_offers(lesson: Lesson, lick: Lick, chords: Sequence[FormBar]) -> Offers:
    home = character(lick, lesson.facts, lesson.key, lesson.licks)
    return offers(home, lick, chords, lesson.licks)


def by_hand(lesson: Lesson, lick: Lick, chords: Sequence[FormBar], tabs: str) -> Tried:
    """A lick on other chords with these tabs, whatever the search would choose."""
    home = character(lick, lesson.facts, lesson.key, lesson.licks)
    plan = plans(lick, chords)[0]
    wanted = wanted_line(lick, chords, lesson.facts, lesson.key, plan)
    line = [
        Choice(each, lesson.facts.harp.pitches(each), Kept.STAND_IN, Cost())
        for each in map(tab, tabs.split())
    ]
    recast = recast_of(lick, chords, next(iter(plan.values())), wanted, line)
    heard = played(recast.lick, chords, lesson.facts, lesson.key, lesson.licks)
    return Tried(recast, home, heard)
