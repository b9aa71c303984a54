"""Which of nearly equal recasts a draft takes, by the joins; and how its turnaround ends."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import cast

import pytest

from formsheet.arrange.cost import strain
from formsheet.lesson.model import Lick
from formsheet.recast.chosen import NEAR, Way, easiest, near
from formsheet.recast.trial import Tried
from tests.helpers import lesson_of, over
from tests.judge.test_effort import tab as tab_of
from tests.recast.demos import tried
from tests.recast.golden import printed

BAR = Fraction(4)


def lick_of(music: str) -> Lick:
    return lesson_of(over("I7", music)).licks["run"]


def way(music: str) -> Way:
    return Way(lick_of(music), None)


LOW, HIGH = way("q 2d 2d 2d 2d"), way("q 8b 8b 8b 8b")


def test_equal_ways_are_chosen_by_their_joins() -> None:
    assert easiest([[HIGH], [LOW, HIGH]], [0, 1], BAR) == [HIGH, HIGH]
    assert easiest([[LOW], [HIGH, LOW]], [0, 1], BAR) == [LOW, LOW]


def test_only_joins_that_are_played_count() -> None:
    """The second part joins on to the third, and the third to the first."""
    other = way("q 7b 7b 7b 7b")
    assert easiest([[LOW], [LOW, other], [HIGH]], [0, 1, 2], BAR)[1] in (LOW, other)
    assert easiest([[LOW], [HIGH, LOW]], [1, 0, 1, 1], BAR)[1] == LOW


def test_the_loop_back_to_the_top_counts() -> None:
    first, last = way("q 2d 2d 2d 8b"), [way("q 8b 8b 8b 8b"), way("q 8b 8b 8b 2d")]
    assert easiest([[first], last], [0, 1], BAR) == [first, last[1]]


def test_much_worse_ways_are_not_weighed() -> None:
    """A fourth down it takes four bends, three of them deep."""
    ways = [Way(each.recast.lick, each) for each in tried("back-step-shuffle", "porch", "V")]
    assert near(ways) == ways[:1]
    assert ways[1].against > ways[0].against + NEAR


def test_a_lick_without_a_note_joins_without_cost() -> None:
    silent = way("w -")
    assert easiest([[silent], [LOW, HIGH]], [0, 1], BAR) == [silent, LOW]


def turnaround(file: str, lick: str) -> str:
    """The notes of the turnaround that a draft makes of a lick."""
    _, made = printed(file, lick, "--draft").split(f"turnaround {lick}-home")
    return made.partition("play")[0].rstrip()


def test_a_made_turnaround_does_not_leap_to_its_root() -> None:
    """To the root near the note before, not to the one on hole 10 near a chord's top note."""
    assert turnaround("slow-barge.lesson", "ebb").endswith("2d{vibrato}  q. - 6d{wah}")


def test_a_chord_with_the_root_in_it_ends_a_turnaround() -> None:
    assert '14d{short}"a"' in turnaround("back-step-shuffle.lesson", "chug")
    assert turnaround("mill-in-winter.lesson", "oak").endswith("234d{short}")


# ---- Both sides of each limit: all of them our own choice --------------------------------------


def worth(against: float, music: str = "w -", warned: int = 0) -> Way:
    """A way of which so many bends, and warnings, are said."""
    rank = (warned, 0, 0, 0, 0, against)
    return Way(lick_of(music), cast("Tried", SimpleNamespace(against=against, rank=rank)))


@pytest.mark.limit("recast.chosen.NEAR")
def test_ways_up_to_four_bends_worse_are_weighed() -> None:
    ways = [worth(1.0), worth(5.0), worth(5.5)]
    assert near(ways) == ways[:2]


def test_a_way_with_a_warning_is_not_weighed_beside_one_without() -> None:
    """Our own choice: easy joins do not make up for a wrong note."""
    ways = [worth(3.0), worth(1.0, warned=1)]
    assert near(ways) == ways[:1]


@pytest.mark.limit("recast.chosen._MOST_WAYS")
def test_three_ways_of_a_lick_are_weighed() -> None:
    assert len(near([worth(0.0)] * 4)) == 3


@pytest.mark.limit("recast.chosen.JOIN")
@pytest.mark.parametrize(("share", "hard"), [(1.9, False), (2.1, True)])
def test_a_join_that_takes_all_its_time_counts_two_bends(share: float, hard: bool) -> None:
    """A way that is worse by itself is taken as long as its joins save more than that."""
    there_and_back = sum(
        strain(tab_of(first), tab_of(second), Fraction(1))
        for first, second in (("2d", "8b"), ("8b", "2d"))
    )
    saved = there_and_back - 2 * strain(tab_of("2d"), tab_of("2d"), Fraction(1))
    ways = [worth(0.0, "q 8b 8b 8b 8b"), worth(share * saved, "q 2d 2d 2d 2d")]
    assert easiest([[LOW], ways], [0, 1], BAR)[1] == ways[0 if hard else 1]


# 100 times 200 ways are 20,000; 113 times 177 are one more.
@pytest.mark.limit("recast.chosen._MOST_TRIED")
@pytest.mark.parametrize(("first", "second", "taken"), [(100, 200, -1), (113, 177, 0)])
def test_20000_combinations_are_tried(first: int, second: int, taken: int) -> None:
    silent = lick_of("w -")
    parts = [
        [Way(silent, cast("Tried", SimpleNamespace(against=float(-at)))) for at in range(count)]
        for count in (first, second)
    ]
    assert easiest(parts, [0, 1], BAR) == [parts[0][-1], parts[1][taken]]


@pytest.mark.limit("recast.chosen._SHORTEST")
@pytest.mark.parametrize(("share", "taken"), [(0.99, 1), (1.01, 0)])
def test_a_join_without_room_counts_as_an_eighth_of_a_quarter(share: float, taken: int) -> None:
    """The pick-up leaves the last note of the other lick no time."""
    no_room, room = (strain(tab_of("2d"), tab_of("8b"), gap) for gap in (Fraction(1, 8), BAR / 4))
    music = "q 8b 8b 8b 8b"
    ways = [worth(0.0, f"pickup q 8b\n{music}"), worth(share * 2 * (no_room - room), music)]
    assert easiest([[LOW], ways], [0, 1], BAR)[1] == ways[taken]
