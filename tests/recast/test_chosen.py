"""Which of nearly equal recasts a draft takes, by the joins; and how its turnaround ends."""

from __future__ import annotations

from fractions import Fraction

from formsheet.lesson.model import Lick
from formsheet.recast.chosen import NEAR, Way, easiest, near
from tests.helpers import lesson_of, over
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
    assert turnaround("slow-barge.lesson", "ebb").endswith("3d''{vibrato}  q. - 6d{wah}")


def test_a_chord_with_the_root_in_it_ends_a_turnaround() -> None:
    assert '14d{short}"a"' in turnaround("back-step-shuffle.lesson", "chug")
    assert turnaround("mill-in-winter.lesson", "oak").endswith("234d{short}")
