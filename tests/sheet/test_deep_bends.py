"""Bends deeper than three half steps, which tunings of one's own allow, through the whole pack."""

from __future__ import annotations

import json

import pytest

from formsheet.engine.parts import PARTS
from formsheet.exports.text import text_tab
from formsheet.judge.joins import find_joins
from formsheet.judge.words import move_words
from formsheet.music.tab import Breath, Tab
from formsheet.problems.drawing import drawn
from formsheet.sheet.make_view import make_view
from formsheet.sheet.spoken import spoken_tab
from formsheet.sheet.view_practice import move_row
from formsheet.tune.lick_letters import LickLetters
from tests.helpers import examined, lesson_text, own_form, tune_of
from tests.parts import part_files


def deep(level: str = "improver", bends: str = "q 3d'''' 2d h -") -> str:
    """Hole 3 has E4 and D5 on a C harp in this tuning: nine half steps of bend."""
    return lesson_text(
        "tuning deep\n  blow C E E G C E G C E G\n  draw D G D5 F A C D F A B\n"
        f"lick home on I\n  q 2d 2d 2d 2b\nlick low on IV\n  {bends}\n"
        "play\n  bars 1-2 home\n  bar 3 low\n  bar 4 home",
        form=own_form("I7 | I7 | IV7 | I7"),
        level=level,
    )


@pytest.mark.parametrize(
    ("level", "who", "further"),
    [("beginner", "a beginner", []), ("improver", "an improver", []),
     ("advanced", "an advanced student", [])],
)  # fmt: skip
def test_no_level_is_offered_where_none_lets_the_bend_pass(
    level: str, who: str, further: list[str]
) -> None:
    (told,) = (drawn(p) for p in examined(deep(level)).problems if p.code == "bend-hard")
    assert f"`3d''''` bends 4 half steps: deep for {who} " in told
    assert [line for line in told.splitlines() if "write `level" in line] == further


def test_the_level_that_is_offered_lets_the_bend_pass() -> None:
    (told,) = (
        drawn(p)
        for p in examined(deep("beginner", "q 3d''' 2d h -")).problems
        if p.code == "bend-hard"
    )
    assert "write `level improver` if" in told


def test_the_join_into_it_is_in_words() -> None:
    tune = tune_of(deep())
    moves = {move_words(join.move) for join in find_joins(tune)}
    assert "1 hole, breath turns, bend 4 half steps" in moves
    rows = [move_row(join, tune.lesson.facts.tempo, LickLetters(tune)) for join in find_joins(tune)]
    assert {row.first.bend for row in rows if row.first} == {0, 4}


@pytest.mark.parametrize(
    ("bend", "said"),
    [(0, "3 draw"), (1, "3 draw bent a half step"), (4, "3 draw bent 4 half steps")],
)
def test_it_is_said_to_a_screen_reader(bend: int, said: str) -> None:
    assert spoken_tab(Tab((3,), Breath.DRAW, bend)) == said


def test_the_legend_says_once_what_a_tick_is() -> None:
    found = examined(deep(bends="q 3d'''' 3d' e 3d''''''' 3d'' q -"))
    assert found.tune
    entries = make_view(found.tune, found.fits, "deep").key_entries
    bends = [entry.words for entry in entries if entry.sign.startswith("bend")]
    assert bends == ["bend, a half step a tick"]


def test_the_key_of_the_text_has_each_depth() -> None:
    lines = text_tab(tune_of(deep(bends="q 3d'''' 3d' e 3d''''''' 3d'' q -"))).splitlines()
    assert [line.split(maxsplit=1) for line in lines if "bent down" in line] == [
        ["3d'", "hole 3 draw, bent down a half step"],
        ["3d''", "hole 3 draw, bent down a whole step"],
        ["3d''''", "hole 3 draw, bent down 4 half steps"],
        ["3d'''''''", "hole 3 draw, bent down 7 half steps"],
    ]


@pytest.mark.parametrize("part", PARTS)
def test_every_part_of_the_pack_is_made(part: str) -> None:
    made = part_files(part, examined(deep()))
    assert made
    assert all(made.values())
    if part == "json":
        notes = json.loads(made["lesson.json"])
        assert "3d''''" in json.dumps(notes)
