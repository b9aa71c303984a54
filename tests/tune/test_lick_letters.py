"""Letters of licks: in the order of the tune, unique, and the same whatever is not played.

Which letters there are is our own choice (the design of the sheet): A to S for licks, T to Z for
turnarounds, then both again with a number.
"""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.cells import cells
from formsheet.lesson.model import Lick
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.timeline import Tune
from tests.helpers import lesson_text, own_form, tune_of

MOST = 60
few = settings(max_examples=60, derandomize=True, deadline=None, database=None)


@cache
def material() -> tuple[Tune, Lick]:
    """A tune of many bars in which nothing is changed but which lick is in each, and a lick."""
    tune = tune_of(
        lesson_text("lick a on I\n w 2d\nplay\n bars 1-60 a", form=own_form(" | ".join(MOST * "I")))
    )
    return tune, tune.lesson.licks["a"]


def with_licks(played: list[Lick | None], of_lesson: list[Lick]) -> Tune:
    """A tune in which these licks are played, a bar each, of a lesson with those."""
    tune, _ = material()
    bars = tuple(
        bar._replace(slot=bar.slot._replace(lick=lick))
        for bar, lick in zip(tune.bars, played, strict=False)
    )
    lesson = tune.lesson._replace(licks={lick.name: lick for lick in of_lesson})
    return tune._replace(bars=bars, lesson=lesson)


def licks_of(kinds: str) -> list[Lick]:
    """Licks ("l") and turnarounds ("t") that differ in their names."""
    _, lick = material()
    return [
        lick._replace(name=f"{kind}{number}", title=f"Lick {number}", turnaround=kind == "t")
        for number, kind in enumerate(kinds)
    ]


def letters(kinds: str) -> list[str]:
    """The letters of licks that are played in this order."""
    found = licks_of(kinds)
    of = LickLetters(with_licks([*found], found)).of
    return [of(lick) for lick in found]


@pytest.mark.parametrize(
    ("kinds", "wanted"),
    [
        ("lll", "A B C"),
        ("tlltt", "T A B U V"),
        ("l" * 21, "A B C D E F G H I J K L M N O P Q R S A2 B2"),
        ("t" * 9, "T U V W X Y Z T2 U2"),
    ],
)
def test_each_series_has_letters_of_its_own(kinds: str, wanted: str) -> None:
    assert " ".join(letters(kinds)) == wanted


def test_the_second_round_ends_as_the_first_did() -> None:
    assert letters("l" * 39)[-2:] == ["S2", "A3"]
    assert letters("t" * 15)[-2:] == ["Z2", "T3"]


KINDS = st.text("lt", min_size=1, max_size=MOST)


@few
@given(KINDS, st.data())
def test_letters_are_unique_and_the_same_whatever_is_not_played(
    kinds: str, data: st.DataObject
) -> None:
    licks = licks_of(kinds)
    played = data.draw(st.lists(st.sampled_from([*licks, None]), min_size=1, max_size=MOST))
    order = data.draw(st.permutations(licks))
    tune = with_licks(played, order)
    found = {lick.name: LickLetters(tune).of(lick) for lick in licks}
    assert len({*found.values()}) == len(licks)
    for lick in licks:
        series = "TUVWXYZ" if lick.turnaround else "ABCDEFGHIJKLMNOPQRS"
        assert found[lick.name][0] in series
        assert cells(found[lick.name]) <= 2  # no more than a small circle holds

    comes = {lick.name: played.index(lick) for lick in licks if lick in played}
    for one in licks:
        for other in licks:
            if one.turnaround == other.turnaround and one.name in comes:
                later = comes.get(other.name, MOST) > comes[one.name]
                assert later == (rank(found[other.name]) > rank(found[one.name]))

    again = LickLetters(with_licks(played, licks))  # in another order in the file
    assert all(again.of(lick) == found[lick.name] for lick in licks if lick.name in comes)
    longer = LickLetters(with_licks([*played, *licks][:MOST], order))  # more is played after
    assert all(longer.of(lick) == found[lick.name] for lick in licks if lick.name in comes)


def rank(letter: str) -> tuple[int, str]:
    """Its place in its series."""
    return int(letter[1:] or 1), letter[0]


@few
@given(KINDS, st.data())
def test_each_lick_comes_once_for_the_first_time(kinds: str, data: st.DataObject) -> None:
    licks = licks_of(kinds)
    played = data.draw(st.lists(st.sampled_from([*licks, None]), min_size=1, max_size=MOST))
    found = LickLetters(with_licks(played, licks))
    first = [lick for index, lick in enumerate(played) if found.first_time(index)]
    assert first == list(dict.fromkeys(lick for lick in played if lick))


def test_licks_that_are_not_played_come_after_in_the_order_of_the_lesson() -> None:
    one, two, three, turn = licks_of("lllt")
    found = LickLetters(with_licks([three, None], [turn, one, two, three]))
    assert [found.of(lick) for lick in (one, two, three, turn)] == ["B", "C", "A", "T"]
    assert found.of(None) == ""


def test_a_lick_in_words() -> None:
    lick, turn = licks_of("lt")
    found = LickLetters(with_licks([lick, turn], [lick, turn]))
    assert found.titled(lick) == "A, Lick 0"
    assert found.said(lick) == "lick A, Lick 0"
    assert found.said(lick, title=False) == "lick A"
    assert found.said(turn) == "turnaround T, Lick 1"


def test_the_bar_of_a_pickup_before_the_tune_has_no_letter() -> None:
    tune = tune_of(
        lesson_text(
            "lick a on I\n pickup e 1d 2b\n q 2d h. -\nplay\n bars 1-2 a", form=own_form("I | I")
        )
    )
    found = LickLetters(tune)
    assert [found.of(bar.lick) for bar in tune.bars] == ["", "A", "A"]
    assert [found.first_time(index) for index in range(3)] == [False, True, False]
