"""Planted errors: each note of the demo lessons that stays, moved a half step up and down.

What is wanted is worked out by `plain_rules.py`, a second reading of the rules. `planted.py` moves
the notes; `python -m tests.judge.planted` counts what is said of them.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.problems.problem import Severity
from tests.helpers import over, told, tune_of
from tests.judge.fitting import clashes_of, edits_of, tried
from tests.judge.plain_rules import WARNING, all_heard, all_said, moved_to, staying
from tests.judge.planted import found_of_fit, moves, wanted_of_fit
from tests.lessons import NAMES, demo

each_demo = pytest.mark.parametrize("name", NAMES)


@each_demo
def test_demo_lesson_has_no_warning_of_its_fit(name: str) -> None:
    found = demo(name)
    assert found.tune
    assert not clashes_of(found), told(found.problems)
    assert found_of_fit(found.problems) == wanted_of_fit(found.tune)


@each_demo
def test_every_move_that_is_to_be_avoided_is_warned_of_and_no_other(name: str) -> None:
    assert moves(name)
    for move in moves(name):
        assert found_of_fit(move.found.problems) == wanted_of_fit(move.tune), str(move)


@each_demo
def test_every_edit_of_a_planted_error_removes_it_and_adds_none_as_grave(name: str) -> None:
    for move in moves(name):
        for problem in clashes_of(move.found):
            for edit in edits_of(problem):
                assert not tried(move.found.problems, problem, move.with_edit(edit)), str(move)


def test_nine_warnings_of_ten_carry_an_edit_that_replaces_the_note() -> None:
    found = [clash for name in NAMES for move in moves(name) for clash in clashes_of(move.found)]
    assert len(found) >= 80
    assert sum(bool(each.edit) for each in found) >= Fraction(9, 10) * len(found)


def test_moves_are_many_and_of_all_sorts() -> None:
    """A test of this file's own reach: warned of, excused, suspended, harmless."""
    heard = [each for name in NAMES for move in moves(name) for each in move.heard]
    assert sum(len(moves(name)) for name in NAMES) >= 150
    assert {each.what for each in heard} >= {WARNING, "suspension", "flat five", "key note", ""}
    assert [each for each in heard if each.avoid and not each.what]


def test_a_move_is_heard_in_every_bar_that_plays_its_lick() -> None:
    """The last note of "Second lamp", which is on IV in both choruses."""
    (move,) = (
        each
        for each in moves("two-lamps-on-mill-lane")
        if each.found.tune and each.old == "6b" and each.new == "6d'"
        and {h.note.mark.span.text for h in each.heard} == {"6d'"}
        and {each.found.tune.lick_of(h.note) for h in each.heard} == {"second"}
    )  # fmt: skip
    (clash,) = clashes_of(move.found)
    assert clash.severity is Severity.WARNING
    assert clash.sounding.bars == [2, 5, 10]


# ---- The plain reading itself, by hand -----------------------------------------------------
# Key of G on a C harp. The rules are those of `test_fit.py`, with their sources there.


@pytest.mark.parametrize(
    ("chords", "music", "what"),
    [
        ("IV7", "q 5b 3d 5b 5b", ["warning"]),
        ("IV7", "e 5b 3d h. 5b", []),
        ("I7", "q 3d 4b 4d' 4d", []),
        ("I7", "q 5d h 4b q 3d", ["suspension"]),
        ("I7", "q 2d 3d h 4d'", ["flat five"]),
        ("V7", "q 4d 5d h 2d", ["key note"]),
        ("I7 | IV7", "h. 2d e 2d 4b | q - h. 5b", []),
        ("I7 | IV7", "h. 2d q 4b | q - h. 5b", ["warning"]),
    ],
)
def test_plain_reading(chords: str, music: str, what: list[str]) -> None:
    assert [each.what for each in all_said(tune_of(over(chords, music)))] == what


def test_plain_reading_names_the_degree() -> None:
    (heard,) = all_heard(tune_of(over("IV7", "w 3d")))
    assert (heard.degree, heard.avoid, heard.what) == (11, True, WARNING)


def test_notes_that_stay_are_moved_and_no_others() -> None:
    tune = tune_of(over("IV7", "q 4b e 5b 6b e 5b 4b q -"))
    assert [str(note.tab) for note in staying(tune)] == ["4b", "4b"]


def test_moved_notes_are_natural_where_they_can_be() -> None:
    tune = tune_of(over("IV7", "q 4b 5b 7b 2d"))
    found = [[*moved_to(tune, note, by)[:1]] for note in tune.notes for by in (1, -1)]
    assert found == [["4d'"], ["3d"], ["5d"], [], [], ["7d"], ["3d'''"], ["2d'"]]
