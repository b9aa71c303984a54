"""What moves, in words: the letting go too; and the tempo up to which it is easy."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.judge.effort import move
from formsheet.judge.joins import find_moves
from formsheet.judge.words import easy_tempo_words, join_names, move_words
from tests.helpers import lesson_text, own_form, tune_of
from tests.judge.test_effort import tab


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        ("3d'", "4d", "let go of the bend, 1 hole"),
        ("3d''", "6b", "let go of the bend, 3 holes, breath turns"),
        ("4d'", "4d", "let go of the bend"),
        ("3d''", "2d'", "let go of the bend, 1 hole, bend a half step"),
        ("3d''", "3d'", "let the bend up to a half step"),
        ("3d'", "3d''", "bend a whole step"),
        ("3d'", "3d'", "nothing moves"),
        ("6ob", "6d", "let go of the overbend, breath turns"),
        ("6ob", "7b", "let go of the overbend, 1 hole"),
        ("7b", "8b", "1 hole, top hole"),
        ("8b", "9b'", "1 hole, bend a half step, top hole"),
        ("8b'", "7b", "let go of the bend, 1 hole"),
        ("8b", "8b", "nothing moves"),
    ],
)
def test_what_is_let_go_is_said(first: str, second: str, words: str) -> None:
    assert move_words(move(tab(first), tab(second))) == words


@pytest.mark.parametrize(
    ("easy", "target", "words"),
    [
        (100.0, 100, "full tempo"),
        (99.9, 100, "96"),
        (40.0, 100, "40"),
        (39.9, 100, "under 40"),  # 40 is the slowest mark of a metronome: common practice
        (29.0, 30, "under 30"),
        (30.0, 30, "full tempo"),
    ],
)
def test_the_tempo_up_to_which_it_is_easy(easy: float, target: int, words: str) -> None:
    assert easy_tempo_words(easy, Fraction(target)) == words


def test_moves_and_joins_are_told_apart() -> None:
    body = (
        'lick a "Front porch" on I\n  q 2d 3d 4d 2d\nlick b "Creek" on IV\n  w 4b\n'
        "play\n  bars 1-2 a x2\n  bar 3 b"
    )
    moves = find_moves(tune_of(lesson_text(body, form=own_form("I | I | IV"))))
    assert {(join_names(each), str(each.last.tab), str(each.first.tab)) for each in moves} == {
        ("inside Front porch", "2d", "3d"),
        ("inside Front porch", "3d", "4d"),
        ("inside Front porch", "4d", "2d"),
        ("Front porch again", "2d", "2d"),
        ("Front porch -> Creek", "2d", "4b"),
    }
