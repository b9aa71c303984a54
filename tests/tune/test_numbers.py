"""Marks of a tune are numbered once; a copy of a mark is the same mark to all that follows."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from formsheet.exports.musicxml.score import musicxml
from formsheet.exports.text import text_tab
from formsheet.judge.fit import judge_fit
from formsheet.judge.joins import find_joins
from formsheet.lesson.model import Lick, LickBar
from formsheet.sheet.make_view import make_view
from formsheet.sheet.view import Mark, Sheet
from formsheet.stages import judged
from formsheet.tune.passages import lick_passages
from formsheet.tune.passes import printed_choruses
from formsheet.tune.timeline import Bar, PlayedMark, Tune
from tests.helpers import examined, lesson_text
from tests.lessons import NAMES, demo
from tests.random_lessons import random_lesson

#: A last time of its own, pick-ups into the tune and inside it, a hold over a bar line.
BY_HAND = lesson_text(
    """
lick a on I, IV, V
  q 2d 3d! 4d -
lick b on I | I
  pickup e 1d 2b
  h 2b = | = -
turnaround c on I | V
  q 2d 3d 4d 5d | 1d 2d h -
play x3
  every I a
  every IV a
  every V a
  bars 1-2 b
  bars 7-8 b
  last time bars 11-12 c
"""
)
BY_CHANCE = {f"chance {seed}": random_lesson(seed) for seed in range(40)}


@cache
def tunes() -> dict[str, Tune]:
    """The demo lessons' tunes, the one by hand, and those of lessons made by chance."""
    texts = {"by hand": BY_HAND} | BY_CHANCE
    found = {name: demo(name).tune for name in NAMES}
    found |= {name: examined(text).tune for name, text in texts.items()}
    return {name: tune for name, tune in found.items() if tune}


def test_nearly_all_lessons_have_a_tune() -> None:
    assert len(tunes()) > len(NAMES) + len(BY_CHANCE) // 2
    assert "by hand" in tunes()


def copied(tune: Tune) -> Tune:
    """The tune with a new object for each of its marks, written or played, and for each lick."""
    licks = {name: _lick(lick) for name, lick in tune.lesson.licks.items()}
    bars = tuple(_bar(bar, licks) for bar in tune.bars)
    notes = tuple(note._replace(played=_played(note.played)) for note in tune.notes)
    return tune._replace(lesson=tune.lesson._replace(licks=licks), bars=bars, notes=notes)


def _lick(lick: Lick) -> Lick:
    return lick._replace(bars=tuple(map(_marks, lick.bars)), pickup=_marks(lick.pickup))


def _marks(bar: LickBar) -> LickBar:
    return tuple(mark._replace() for mark in bar)


def _played(played: PlayedMark) -> PlayedMark:
    return played._replace(mark=played.mark._replace())


def _bar(bar: Bar, licks: dict[str, Lick]) -> Bar:
    lick = bar.lick and licks[bar.lick.name]
    slot = bar.slot._replace(lick=lick and lick._replace())
    return bar._replace(slot=slot, marks=tuple(map(_played, bar.marks)))


@pytest.fixture(params=tunes())
def tune(request: pytest.FixtureRequest) -> Tune:
    return tunes()[request.param]


def test_the_marks_of_a_tune_are_numbered_in_order(tune: Tune) -> None:
    assert [mark.number for mark in tune.marks] == list(range(len(tune.marks)))
    assert [tune.marks[note.played.number or 0] for note in tune.notes] == [
        note.played for note in tune.notes
    ]


def test_a_mark_has_its_place_in_its_lick(tune: Tune) -> None:
    for index, bar in enumerate(tune.bars):
        for played in bar.marks:
            lick = tune.bars[index + played.pickup].lick
            if lick and played.place is not None:
                own = lick.pickup if played.pickup else lick.bars[bar.slot.bar_in_lick]
                assert own[played.place] == played.mark
            else:
                assert not played.sounds


def test_a_copy_of_each_mark_changes_no_finding(tune: Tune) -> None:
    fits, problems = judged(tune)
    assert judged(copied(tune)) == (fits, problems)
    assert find_joins(copied(tune)) == find_joins(tune)
    assert [join.loops for join in find_joins(copied(tune))] == [
        join.loops for join in find_joins(tune)
    ]


def test_a_copy_of_each_mark_changes_nothing_that_is_printed(tune: Tune) -> None:
    other, fits = copied(tune), judge_fit(tune)
    assert make_view(other, fits, "a.lesson") == make_view(tune, fits, "a.lesson")
    assert musicxml(other) == musicxml(tune)
    assert text_tab(other) == text_tab(tune)
    assert printed_choruses(other) == printed_choruses(tune)
    assert lick_passages(other) == lick_passages(tune)


def test_landings_survive_a_copy_in_bars_and_on_cards() -> None:
    tune = copied(tunes()["by hand"])
    sheet = make_view(tune, judge_fit(tune), "a.lesson")
    assert {place for place, mark in _printed(sheet) if mark.landing} == {"chorus", "card"}


def _printed(sheet: Sheet) -> Iterator[tuple[str, Mark]]:
    lines = (line for chorus in sheet.choruses for line in chorus.lines)
    for place, bars in (
        *(("chorus", line) for line in lines),
        *(("card", card.bars) for card in sheet.cards),
    ):
        for bar in bars:
            for mark in bar.marks:
                yield place, mark
