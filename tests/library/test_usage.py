"""Where licks, rhythms and shelves are used."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.library.named import named
from formsheet.library.usage import Home, Library
from tests.helpers import lesson_text
from tests.library.folders import lesson, read, uses_of

SHELF = """\
rhythm trot h x x
lick home on I, IV in trot
  2d 3d
lick walk on I
  w 2d
lick idle on I
  w 3d
"""
ONE = lesson("use home from corner\nplay\n  every I home\n  every IV home")
TWO = lesson(
    "use home as stroll, walk from corner\nlick own on IV\n  w 4b\nlick left on I\n  w 1d\n"
    "play x2\n  every I walk\n  every IV own\n  last time bar 3 stroll"
)


@pytest.fixture
def made(tmp_path: Path) -> Library:
    return read(tmp_path, shelf__corner=SHELF, one=ONE, two=TWO)


def test_bars_of_a_lick_in_every_lesson(made: Library) -> None:
    assert uses_of(made, "home") == {"one": "1:1 1:2 1:3", "two": "2:3"}
    assert uses_of(made, "walk") == {"two": "1:1 1:3 2:1"}
    assert uses_of(made, "own") == {"two": "1:2 2:2"}


def test_name_that_a_lesson_gives(made: Library) -> None:
    (_, use) = made.licks[Home("shelf/corner.licks", "home")].uses
    assert (use.names, use.choruses) == (("stroll",), 2)


def test_licks_that_are_never_played(made: Library) -> None:
    assert {home.name for home, entry in made.licks.items() if not entry.played} == {
        "idle",
        "left",
    }


def test_lick_that_is_taken_but_not_played(tmp_path: Path) -> None:
    one = lesson("use home from corner\nplay\n  every I rest\n  every IV rest")
    made = read(tmp_path, shelf__corner=SHELF, one=one)
    assert uses_of(made, "home") == {"one": ""}
    assert not made.licks[Home("shelf/corner.licks", "home")].played


def test_licks_in_a_rhythm(made: Library) -> None:
    home = Home("shelf/corner.licks", "trot")
    assert made.rhythms == {home: [Home("shelf/corner.licks", "home")]}


def test_rhythm_taken_through_two_shelves(tmp_path: Path) -> None:
    made = read(
        tmp_path,
        shelf__deep="rhythm trot h x x\n",
        shelf__corner="use trot as step from deep\n",
        one=lesson("use step as beat from corner\nlick own on I, IV in beat\n  2d 3d\n"
                   "play\n  every I own\n  every IV own"),
    )  # fmt: skip
    assert made.rhythms == {Home("shelf/deep.licks", "trot"): [Home("one.lesson", "own")]}


def test_lick_handed_on_by_a_shelf(tmp_path: Path) -> None:
    made = read(
        tmp_path,
        shelf__deep=SHELF,
        shelf__corner="use home as near from deep\n",
        one=ONE.replace("use home", "use near as home"),
    )
    assert uses_of(made, "home") == {"one": "1:1 1:2 1:3"}


def test_who_takes_from_a_shelf(made: Library) -> None:
    assert made.shelves == {
        "shelf/corner.licks": {"one.lesson": ["home"], "two.lesson": ["home", "walk"]}
    }


def test_shelves_in_a_circle_end(tmp_path: Path) -> None:
    made = read(
        tmp_path,
        shelf__a="use trot from b\nlick one on I in trot\n  2d\n",
        shelf__b="use trot from a\n",
    )
    assert made.broken == ["shelf/a.licks", "shelf/b.licks"]


def test_file_with_errors_is_read_as_far_as_it_goes(tmp_path: Path) -> None:
    made = read(tmp_path, one=ONE + "tempoo\n", shelf__corner=SHELF)
    assert made.broken == ["one.lesson"]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("home", "LICK home"),
        ("trot", "RHYTHM trot"),
        ("corner", "FILE home walk idle"),
        ("corner.licks", "FILE home walk idle"),
        ("corner:walk", "LICK walk"),
        ("two:walk", ""),
        ("two", "FILE own left"),
    ],
)
def test_names_as_they_are_typed(made: Library, words: str, found: str) -> None:
    matches = named(made, words)
    assert found == " ".join(
        f"{each.what.name} {each.home.name or ' '.join(h.name for h in each.licks)}"
        for each in matches
    )


def test_what_changes_with_a_rhythm(made: Library) -> None:
    (rhythm,) = named(made, "trot")
    assert list(made.lessons_of(rhythm.licks)) == ["one.lesson", "two.lesson"]


def test_lesson_that_is_no_lesson(tmp_path: Path) -> None:
    made = read(tmp_path, empty="", one=lesson_text("play"))
    assert made.broken == ["empty.lesson", "one.lesson"]
    assert made.licks == {}


def test_lick_over_an_ending_of_two_bars(tmp_path: Path) -> None:
    plays = "play x2\n  every I home\n  every IV home\n  every IV I turn\n  last time ending I | I"
    one = lesson(
        f"use home from corner\nlick turn on IV I\n  h 4b 2d\n{plays}\n  ending IV I | IV I"
    )
    made = read(tmp_path, shelf__corner=SHELF, one=one)
    assert uses_of(made, "turn") == {"one": "1:2 1:3"}
    assert uses_of(made, "home") == {"one": "1:1 2:1 2:2 2:3"}


def test_ending_over_a_form_that_cannot_be_read(tmp_path: Path) -> None:
    one = lesson("lick own on I\n  w 2d\nplay\n  bar 1 own\n  ending I IV | I V")
    made = read(tmp_path, one=one.replace("| I", "| H"))
    assert uses_of(made, "own") == {}
