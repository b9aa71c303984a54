"""Passages of a tune: where it, its licks and its joins are first played."""

from __future__ import annotations

from formsheet.judge.joins import find_joins
from formsheet.tune.passages import Passage, lick_passages, whole_tune
from formsheet.tune.timeline import Tune
from tests.helpers import lesson_text, own_form, tune_of

TEXT = lesson_text(
    "lick long on I | IV\n  pickup e 1d 2b\n  w 2d | w 4b\nlick short on V\n  h. 1d q -\n"
    "play x2\n  bars 1-2 long\n  bar 3 short",
    form=own_form("I | IV | V"),
)


def tune() -> Tune:
    return tune_of(TEXT)


def test_the_whole_tune_begins_at_bar_1() -> None:
    assert tune().bars[0].number == 0
    assert whole_tune(tune()) == Passage(1, 6)
    assert whole_tune(tune()).bars == 6


def test_licks_are_shown_where_they_are_first_played() -> None:
    found = {lick.name: passage for lick, passage in lick_passages(tune())}
    assert found == {"long": Passage(1, 2), "short": Passage(3, 3)}


def test_a_join_into_a_pickup_goes_on_to_the_bar_that_it_leads_to() -> None:
    found = {join.second_lick.name: join.passage for join in find_joins(tune())}
    assert found == {"short": Passage(2, 3), "long": Passage(3, 4)}
