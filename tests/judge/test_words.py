"""Moves, joins and tab in words, as report and sheet print them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.judge.effort import move
from formsheet.judge.joins import PlayedMove, find_joins
from formsheet.judge.words import easy_words, join_names, move_words, tabs_words
from tests.helpers import lesson_text, over, own_form, tune_of
from tests.judge.test_effort import tab


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        ("2d", "2d", "nothing moves"),
        ("2d", "3d", "1 hole"),
        ("2d", "4d", "2 holes"),
        ("3b", "3d", "breath turns"),
        ("3d", "3d'", "bend a half step"),
        ("3d", "3d'''", "bend a step and a half"),
        ("4b", "6ob", "2 holes, overbend"),
        ("2d", "123d", "new mouth shape"),
        ("9b", "2d''", "7 holes, breath turns, bend a whole step"),
        ("123d", "6ob", "3 holes, breath turns, overbend, new mouth shape"),
    ],
)
def test_what_moves(first: str, second: str, words: str) -> None:
    assert move_words(move(tab(first), tab(second))) == words


def join_of(music: str) -> PlayedMove:
    """The join of a bar to itself, at 60 beats a minute."""
    (join,) = find_joins(tune_of(over("I", music).replace("play\n", "play x2\n")))
    return join


def test_a_join_is_easy_up_to_the_metronomes_number_below() -> None:
    """A beat, and 480 ms to move: easy up to 125, less for the move before: 121."""
    join = join_of("q 2d - - 9b")  # 7 holes are 3 bits: 140 + 3 * 90 + 70 ms
    assert join.easy_tempo == pytest.approx(121, abs=0.5)
    assert easy_words(join, Fraction(200)) == "120"
    assert easy_words(join, Fraction(126)) == "120"
    assert easy_words(join, Fraction(121)) == "full tempo"


def test_names_of_a_join() -> None:
    text = lesson_text(
        'lick a "Front porch" on I\n  w 2d\nlick b "Creek" on IV\n  w 4b\nplay\n  bars 1-2 a\n'
        "  bar 3 b",
        form=own_form("I | I | IV"),
    )
    assert {join_names(join) for join in find_joins(tune_of(text))} == {
        "Front porch again",
        "Front porch -> Creek",
    }


@pytest.mark.parametrize(("tabs", "words"), [((), "none"), (("2d", "3b"), "2d, 3b")])
def test_tabs(tabs: tuple[str, ...], words: str) -> None:
    assert tabs_words(tabs) == words
