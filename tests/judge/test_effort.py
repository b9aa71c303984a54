"""The cost of a move: Fitts' index at worked values, and the order a player would give."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from pathlib import Path

import pytest

from formsheet.judge.effort import index_of_difficulty, move
from formsheet.judge.joins import find_joins
from formsheet.music.tab import Breath, Tab
from tests.helpers import over, tune_of

GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"


def tab(text: str) -> Tab:
    """Tab from its written form."""
    found = re.fullmatch(r"((?:10|[1-9])+)(o?)([bd])('*)", text)
    assert found
    holes = tuple(map(int, re.findall("10|[1-9]", found[1])))
    return Tab(holes, Breath(found[3]), len(found[4]), bool(found[2]))


# Fitts, J. Exp. Psychology 47 (1954) 381: difficulty grows with the logarithm of distance over
# width, in bits. Worked by hand for log2(1 + D/W).
@pytest.mark.parametrize(
    ("distance", "width", "bits"),
    [(0, 1, 0.0), (1, 1, 1.0), (3, 1, 2.0), (7, 1, 3.0), (3, 3, 1.0), (1, 2, math.log2(1.5))],
)
def test_index_of_difficulty(distance: int, width: int, bits: float) -> None:
    assert index_of_difficulty(distance, width) == pytest.approx(bits)


def study() -> list[tuple[str, str]]:
    """The pairs of the study in the contributor's guide, in its order."""
    text = GUIDE.read_text(encoding="utf-8")
    part = text.split("<!-- joins study -->")[1].split("<!-- /joins study -->")[0]
    return re.findall(r"^\| `([^`]+)` \| `([^`]+)` \|", part, re.MULTILINE)


def test_the_study_has_a_dozen_pairs() -> None:
    assert len(study()) >= 12


# Common practice, no source: the order is a player's.
@pytest.mark.parametrize(("easier", "harder"), list(pairwise(study())))
def test_moves_cost_in_the_order_of_the_study(
    easier: tuple[str, str], harder: tuple[str, str]
) -> None:
    costs = [move(tab(first), tab(second)).seconds for first, second in (easier, harder)]
    assert costs[0] <= costs[1]


def test_the_same_note_is_easier_than_everything_else() -> None:
    costs = [move(tab(first), tab(second)).seconds for first, second in study()[2:]]
    assert move(tab("2d"), tab("2d")).seconds < min(costs)


@pytest.mark.parametrize(
    ("first", "second", "holes"),
    [("123d", "4b", 1), ("4b", "123d", 1), ("14b", "3d", 0), ("9b", "2d", 7), ("36b", "8b", 2)],
)
def test_holes_are_counted_from_the_nearest_edges(first: str, second: str, holes: int) -> None:
    assert move(tab(first), tab(second)).holes == holes


# Our own choice: milliseconds that each part of a move takes at ease. A slide of one hole is one
# bit of Fitts' index, of three holes two.
@pytest.mark.limit(
    "judge.effort.NEW_NOTE",
    "judge.effort.SLIDE_PER_BIT",
    "judge.effort.TARGET_WIDTH",
    "judge.effort.BREATH_TURN",
    "judge.effort.FIRST_BEND",
    "judge.effort.FURTHER_BEND",
    "judge.effort.OVERBEND",
    "judge.effort.NEW_SHAPE",
)
@pytest.mark.parametrize(
    ("last", "first", "ms"),
    [
        ("2d", "2d", 140),
        ("2d", "3d", 140 + 90),
        ("2d", "5d", 140 + 2 * 90),
        ("3b", "3d", 140 + 70),
        ("4d", "4d'", 140 + 120),
        ("3d", "3d''", 140 + 120 + 70),
        ("3d", "3d'''", 140 + 120 + 2 * 70),
        ("6b", "6ob", 140 + 300),
        ("2d", "123d", 140 + 100),
    ],
)
def test_the_time_that_a_join_takes_at_ease(last: str, first: str, ms: int) -> None:
    """The join of a bar to itself, a beat long: easy up to a beat of so many milliseconds."""
    text = over("I", f"q {first} - - {last}").replace("play\n", "play x2\n")
    (join,) = find_joins(tune_of(text))
    assert 60_000 / join.easy_tempo == pytest.approx(ms)
