"""The cost of a move: Fitts' index at worked values, and the order a player would give."""

from __future__ import annotations

import csv
import re
from itertools import pairwise
from pathlib import Path

import pytest

from formsheet.judge.effort import effort_of, index_of_difficulty, move
from formsheet.music.tab import Breath, Tab

PAIRS = Path(__file__).parent / "pairs.tsv"
GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"


def tab(text: str) -> Tab:
    """Tab from its written form."""
    found = re.fullmatch(r"((?:10|[1-9])+)(o?)([bd])('*)", text)
    assert found
    holes = tuple(map(int, re.findall("10|[1-9]", found[1])))
    return Tab(holes, Breath(found[3]), len(found[4]), bool(found[2]))


def seconds(first: str, second: str) -> float:
    """Seconds that a move takes at ease."""
    return move(tab(first), tab(second)).seconds


# MacKenzie, Human-Computer Interaction 7 (1992) 91: log2(1 + D/W) bits. Worked by hand; the values
# to two places are those of distances 8 to 64 and widths 8 to 1, as in the experiments there.
@pytest.mark.parametrize(
    ("distance", "width", "bits"),
    [(0, 1, 0), (1, 1, 1), (3, 1, 2), (7, 1, 3), (3, 3, 1), (8, 8, 1), (16, 8, 1.58), (32, 8, 2.32),
     (64, 8, 3.17), (64, 4, 4.09), (64, 2, 5.04), (64, 1, 6.02)],
)  # fmt: skip
def test_index_of_difficulty(distance: float, width: float, bits: float) -> None:
    assert index_of_difficulty(distance, width) == pytest.approx(bits, abs=0.005)


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
    assert seconds(*easier) <= seconds(*harder)


def test_the_same_note_is_easier_than_everything_else() -> None:
    assert seconds("2d", "2d") < min(seconds(*pair) for pair in study()[2:])


def pairs() -> list[tuple[str, str, str, str, str]]:
    """Pairs of moves, the easier first, put in order by a player who had not seen this code."""
    with PAIRS.open(encoding="utf-8", newline="") as file:
        return [(a, b, c, d, why) for a, b, c, d, why in csv.reader(file, delimiter="\t")]


def test_there_are_forty_pairs_put_in_order_blind() -> None:
    assert len({pair[:4] for pair in pairs()}) == 40


# Common practice, no source: the order is that player's.
@pytest.mark.parametrize(("a", "b", "c", "d", "why"), pairs(), ids=lambda text: text)
def test_moves_cost_in_the_order_of_a_player(a: str, b: str, c: str, d: str, why: str) -> None:
    assert seconds(a, b) < seconds(c, d), why


@pytest.mark.parametrize(
    ("first", "second", "holes"),
    [("2d", "5d", 3), ("9b", "2d", 7), ("123d", "4b", 1), ("4b", "123d", 1), ("14b", "3d", 0),
     ("36b", "8b", 2), ("123d", "456d", 3), ("123d", "234d", 1), ("123d", "23d", 0),
     ("123d", "45d", 2), ("14b", "36b", 2), ("14b", "25b", 1)],
)  # fmt: skip
def test_holes_that_the_mouth_moves_over(first: str, second: str, holes: int) -> None:
    """A shape that stays slides along; one that changes opens or closes at its nearest edge."""
    assert move(tab(first), tab(second)).holes == move(tab(second), tab(first)).holes == holes


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
    "judge.effort.FIRST_RELEASE",
    "judge.effort.FURTHER_RELEASE",
    "judge.effort.OVERBEND_RELEASE",
    "judge.effort.NEW_SHAPE",
    "judge.effort.TOP_HOLE",
    "judge.effort.FIRST_TOP_HOLE",
)
@pytest.mark.parametrize(
    ("last", "first", "ms"),
    [
        ("2d", "2d", 140),
        ("3d'", "3d'", 140),
        ("6ob", "6ob", 140),
        ("9d", "9d", 140),
        ("2d", "3d", 140 + 90),
        ("2d", "5d", 140 + 2 * 90),
        ("3b", "3d", 140 + 70),
        ("4d", "4d'", 140 + 120),
        ("3d", "3d''", 140 + 120 + 70),
        ("3d", "3d'''", 140 + 120 + 2 * 70),
        ("6d", "6ob", 140 + 70 + 300),
        ("2d", "123d", 140 + 100),
        ("14d", "4d", 140 + 100),
        # letting go: on the same reed, in another hole, of all of it, of a part
        ("4d'", "4d", 140 + 50),
        ("3d''", "3d", 140 + 50 + 20),
        ("3d'''", "3d", 140 + 50 + 2 * 20),
        ("3d''", "4d", 140 + 90 + 50 + 20),
        ("3d''", "2d''", 140 + 90 + 120 + 70 + 50 + 20),
        ("3d'", "3d''", 140 + 120 + 70),
        ("3d''", "3d'", 140 + 120 + 50),
        ("6ob", "6b", 140 + 100),
        ("6ob", "7b", 140 + 90 + 100),
        # from 8 on small reeds
        ("6b", "7b", 140 + 90),
        ("7b", "8b", 140 + 90 + 40),
        ("8b", "7b", 140 + 90),
        ("10b", "10b''", 140 + 120 + 70 + 40),
    ],
)
def test_the_time_that_a_move_takes_at_ease(last: str, first: str, ms: int) -> None:
    assert 1000 * seconds(last, first) == pytest.approx(ms)
    assert 1000 * effort_of(tab(last), tab(first)) == pytest.approx(ms - 140)


@pytest.mark.parametrize("bent", ["3d'", "3d''", "8b'", "6ob"])
def test_letting_go_costs_less_than_finding(bent: str) -> None:
    natural = bent.rstrip("'").replace("o", "")
    assert seconds(natural, natural) < seconds(bent, natural) < seconds(natural, bent)
