"""A lick over chords: played once, or twice, so that its end is heard into its beginning."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from formsheet.judge.fit import BarFit, judge_fit
from formsheet.judge.where import Placement
from formsheet.lesson.model import BarsPlaced, Facts, Lesson, Lick, Placed, Play
from formsheet.music.form import Form, FormBar
from formsheet.music.key import Key
from formsheet.recast.target import asked_bars
from formsheet.tune.assemble import assemble, bars_over, tune_of
from formsheet.tune.timeline import Slot, Tune

_ROUNDS = 2


class Played(NamedTuple):
    """A lick over chords, without its pick-up."""

    tune: Tune
    fits: tuple[BarFit, ...]  # of all its bars
    placement: Placement  # the first round


def played(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, licks: Mapping[str, Lick]
) -> Played:
    """Play a lick twice; `licks` are those of its tune, by which the judge knows if it is blue."""
    lesson = _lesson(lick, chords, facts, key, licks)
    tune, problems = assemble(lesson)
    assert tune, problems
    return _judged(lesson, tune)


def alone(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, licks: Mapping[str, Lick]
) -> Played:
    """Play a lick once, as `judge.where.over` does."""
    lesson = _lesson(lick, chords, facts, key, licks)
    only = lesson.licks[lick.name]
    slots = [Slot(only, index, 1, 1, only.span) for index in range(len(only.bars))]
    return _judged(lesson, tune_of(lesson, bars_over(tuple(chords), slots, facts.meter)))


def _lesson(
    lick: Lick, chords: Sequence[FormBar], facts: Facts, key: Key, licks: Mapping[str, Lick]
) -> Lesson:
    """A lesson in which a lick is played twice over a form of these chords."""
    lick, span = lick._replace(pickup=(), on=asked_bars(chords)), lick.span
    form = Form("trial", (tuple(chords),))
    placed = BarsPlaced(1, len(chords), (Placed(lick.name, False, 1, span),), False, span)
    play = Play("", _ROUNDS, (), (placed,), span)
    facts = facts._replace(form=form)
    return Lesson(facts, form, key, {**licks, lick.name: lick}, (play,), span)


def _judged(lesson: Lesson, tune: Tune) -> Played:
    fits = tuple(judge_fit(tune))
    chords = lesson.form.bars
    lick = tune.bars[0].slot.lick if tune.bars[0].slot else None
    assert lick
    numbers = tuple(range(1, len(chords) + 1))
    return Played(tune, fits, Placement(lick, chords, numbers, fits[: len(chords)]))
