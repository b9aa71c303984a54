"""`formsheet joins`: the table of moves and joins, the licks by themselves, and the data."""

from __future__ import annotations

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from formsheet.judge.practice import Practice, practice_of
from formsheet.report.joins import MOST_ROWS, joins_data, joins_table, shown_moves
from formsheet.report.schema import schema_text
from tests.helpers import lesson_text, over, own_form, tune_of
from tests.lessons import NAMES, demo


def of_demo(name: str) -> Practice:
    tune = demo(name).tune
    assert tune
    return practice_of(tune)


def test_the_whole_report() -> None:
    body = (
        'lick porch "Front porch" on I\n  q 2d 3d 4d 2d\n'
        'lick creek "Creek" on IV\n  q 4b 6b h -\nplay\n  bars 1-2 porch x2\n  bar 3 creek'
    )
    text = lesson_text(body, form=own_form("I | I | IV"), tempo="208", level="beginner")
    assert joins_table(practice_of(tune_of(text))) == [
        "    where                 bars     from  to     easy at  what moves",
        "1.  Front porch -> Creek  3        2d    4b         152  2 holes, breath turns",
        "2.  inside Creek          3        4b    6b         176  2 holes",
        "3.  inside Front porch    1 and 2  4d    2d         192  2 holes",
        "4.  Front porch again     2        2d    2d  full tempo  nothing moves",
        "Not listed: 2 easier moves inside these licks.",
        "Start at 152 beats a minute, then take 168, 184 and 208.",
        "",
        "each lick by itself  bars     start at",
        "Front porch          1 and 2       192",
        "Creek                3             176",
        "",
        "Breath: 82 per cent of the air is drawn.",
        "At 152 beats a minute the chest is fullest in bar 2: 3 of the 12 seconds of air that a "
        "beginner has are used.",
        "At 208 beats a minute the chest is fullest in bar 2: 2 of the 12 seconds of air that a "
        "beginner has are used.",
        "No rest to breathe.",
        "",
        "To practise:",
        "1. Learn Front porch first: it fills 2 of the 3 bars and is easy at 184; then Creek.",
        "2. Then the hardest move, bar 3: `2d` to `4b` (Front porch -> Creek), from 152.",
        "3. Then the whole tune at 152, 168, 184 and 208 beats a minute.",
        "4. There is no rest, and none is needed: the air lasts.",
    ]


def test_a_tune_in_which_nothing_moves() -> None:
    lines = joins_table(practice_of(tune_of(over("I", "w 2d"))))
    assert lines[:2] == [
        "Nothing moves in this tune.",
        "Start at 60 beats a minute: that is the tune's own tempo.",
    ]


@pytest.mark.parametrize("name", NAMES)
def test_the_table_has_all_joins_and_of_each_lick_its_hardest_move(name: str) -> None:
    """All demo lessons have room for that in two dozen rows; other moves fill what is left."""
    practice = of_demo(name)
    shown = shown_moves(practice)
    assert len(shown) <= MOST_ROWS == 24
    assert [each for each in practice.moves if each.joins and each not in shown] == []
    for lick in practice.licks:
        inside = [
            each
            for each in practice.moves
            if not each.joins and each.first_lick.name == lick.lick.name
        ]
        assert inside[:1] == [each for each in inside[:1] if each in shown]
        left = [each for each in inside[1:] if each not in shown]
        easy = all(each.easy_tempo >= practice.target for each in left)
        assert easy or len(shown) == MOST_ROWS
    ranks = [practice.moves.index(each) for each in shown]
    assert ranks == sorted(ranks)


def test_of_more_joins_than_rows_the_hardest_are_listed() -> None:
    names = "abcdefghijklmnopqrstuvwxyz"
    licks = "".join(
        f"lick {name}a on I\n  q 2d - - {1 + at % 10}{'bd'[at % 2]}\n"
        for at, name in enumerate(names)
    )
    bars = "".join(f"  bar {at} {name}a\n" for at, name in enumerate(names, start=1))
    form = own_form(" | ".join(["I"] * len(names)))
    practice = practice_of(tune_of(lesson_text(f"{licks}play\n{bars}", form=form)))
    shown = shown_moves(practice)
    left = [each for each in practice.moves if each not in shown]
    assert sum(each.joins for each in practice.moves) == len(names) - 1
    assert len(shown) == 24
    assert max(each.easy_tempo for each in shown) <= min(each.easy_tempo for each in left)
    joins = sum(each.joins for each in left)
    said = f"Not listed: {joins} easier joins and {len(left) - joins} easier moves."
    assert said in joins_table(practice)


def data(practice: Practice) -> Any:
    return json.loads(json.dumps(joins_data(practice)))


@pytest.mark.parametrize("name", NAMES)
def test_data_follow_the_schema_and_say_the_same(name: str) -> None:
    practice = of_demo(name)
    found = data(practice)
    Draft202012Validator(json.loads(schema_text("joins"))).validate(found)
    lines = joins_table(practice)
    assert [line.split(". ", 1)[1] for line in lines[lines.index("To practise:") + 1 :]] == (
        found["plan"]
    )
    assert [each["rank"] for each in found["moves"]] == list(range(1, len(practice.moves) + 1))
    assert sum(each["shown"] for each in found["moves"]) == len(shown_moves(practice))
    assert {lick["name"]: lick["ladder"][0] for lick in found["licks"]} == {
        each.lick.name: float(each.ladder[0]) for each in practice.licks
    }


def test_kinds_of_moves_in_data() -> None:
    body = "lick a on I\n  q 3d' 3d 6ob 9b\nlick b on IV\n  w 14b\nplay\n  bars 1-2 a x2\n  bar 3 b"
    text = lesson_text(body, form=own_form("I | I | IV"), level="advanced")
    found = data(practice_of(tune_of(text)))
    by_tab = {(each["last"], each["first"]): each for each in found["moves"]}
    kinds = {pair: each["kind"] for pair, each in by_tab.items()}
    assert kinds == {
        ("3d'", "3d"): "inside",
        ("3d", "6ob"): "inside",
        ("6ob", "9b"): "inside",
        ("9b", "3d'"): "loop",
        ("9b", "14b"): "join",
    }
    assert by_tab["3d'", "3d"]["release"] == 1
    assert by_tab["6ob", "9b"]["overbend_release"]
    assert by_tab["6ob", "9b"]["top_hole"]
    assert (by_tab["9b", "14b"]["from"], by_tab["9b", "14b"]["to"]) == ("a", "b")


def test_where_air_runs_out_in_data() -> None:
    form = " | ".join(["I"] * 4)
    text = over(form, " | ".join(["w 123d"] * 4), tempo="60", level="beginner")
    breath = data(practice_of(tune_of(text)))["breath"]
    assert (breath["drawn_share"], breath["rests"], breath["relief"]) == (1, [], None)
    (at,) = breath["at"]
    assert at["most"]["full"]
    assert at["runs_out"][0]["since"] == {"bar": 1, "chorus": 1}
