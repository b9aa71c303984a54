"""A shelf that changes: only lessons that take what has changed are stale."""

from __future__ import annotations

import time

import pytest

from formsheet.engine.parts import PARTS, data
from formsheet.lesson.shelves import Shelves
from formsheet.problems import kinds
from formsheet.problems.problem import Severity
from formsheet.stages import examine_file
from tests.engine.conftest import A_WHILE, Desk
from tests.helpers import lesson_text, own_form
from tests.problems.golden import ERRORS

SHELF = """
rhythm trot
  q x x x x
lick run "Home" on I
  w 2d
  tip breathe low
lick walk on I in trot
  2d 3d 4d 3d
lick off on I
  w 3d'''
use deep-one from deep
"""
DEEP = """
lick deep-one on I
  w 1d
lick deep-other on I
  w 4d
"""
#: Lessons by what they take; of what `off` takes something is said that points at the shelf.
LESSONS = {
    "run": ("run", "I", "run"),
    "alias": ("run as go", "I", "go"),
    "walk": ("walk", "I", "walk"),
    "trot": ("trot", "I", "own"),
    "deep": ("deep-one", "I", "deep-one"),
    "off": ("off", "I", "off"),
}
ALL = set(LESSONS)


def shelved(text: str) -> str:
    """Facts and `use` lines first."""
    lines = text.strip().split("\n")
    first = [line for line in lines if line.startswith(("use", "position", "meter", "#"))]
    return "\n".join([*first, *(line for line in lines if line not in first), ""])


@pytest.fixture
def desk_of_shelves(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> Desk:
    """Built, with `lesson.json` as it is really made: it holds all that is said of a lesson."""
    monkeypatch.setitem(PARTS, "json", data)
    desk.parts = (*desk.parts, "json")
    for name, (take, chord, lick) in LESSONS.items():
        own = "lick own on I in trot\n  2d 2d 2d 2d\n" if take == "trot" else ""
        text = f"use {take} from corner\n{own}play\n  bar 1 {lick}"
        desk.write(f"{name}.lesson", lesson_text(text, form=own_form(chord)))
    desk.write("shelf/corner.licks", shelved(SHELF))
    desk.write("shelf/deep.licks", DEEP)
    time.sleep(A_WHILE)
    assert {event.outcome.value for event in desk.build().values()} == {"built"}
    assert desk.stale == []
    return desk


def change(desk: Desk, text: str, shelf: str = "corner") -> set[str]:
    """What is stale once a shelf holds this; what is not would be made again as it is."""
    desk.write(f"shelf/{shelf}.licks", text)
    time.sleep(A_WHILE)
    plan = desk.plan()
    made = desk.made()
    stale = {target.folder.name for target in plan.stale}
    desk.again()
    kept = {n: text for n, text in made.items() if n.partition("/")[0] not in stale}
    assert kept == {n: text for n, text in desk.made().items() if n in kept}
    return stale


@pytest.mark.parametrize(
    ("old", "new", "stale"),
    [
        ("w 2d", "w 3d", {"run", "alias"}),
        ("low", "high", {"run", "alias"}),
        ('"Home"', '"House"', {"run", "alias"}),
        ("3d 4d 3d", "3d 4d 2d", {"walk"}),
        ("q x x x x", "h x e x x q x", {"walk", "trot"}),
        ("lick off", "lick more on V\n  w 1d\nlick off", {"off"}),  # its line is another
        ("  2d 3d", "  # a thought\n  2d 3d", {"off"}),
        ("w 3d'''", "h 3d''' 3d", {"off"}),
        ("trot\n  2d 3d 4d 3d", "trot\n  2d  3d # so\n  4d 3d", {"off"}),
        ("2d 3d 4d", "2d  3d 4d", set()),
        ("lick run", "position 1st\nlick run", ALL),
        ("lick run", "lick ran", {"run", "alias"}),
        ("w 2d", "w 44d", {"run", "alias"}),
        ("w 2d", "w 2", ALL),
        ("use deep-one", "use deep-other", {"deep"}),
        ("use deep-one", "use deep-other as deep-one, deep-one as x", {"deep"}),
    ],
)  # fmt: skip
def test_change_of_a_shelf(old: str, new: str, stale: set[str], desk_of_shelves: Desk) -> None:
    assert old in SHELF
    assert change(desk_of_shelves, shelved(SHELF.replace(old, new))) == stale


def test_change_of_a_shelf_behind_a_shelf(desk_of_shelves: Desk) -> None:
    assert change(desk_of_shelves, DEEP.replace("w 4d", "w 3d"), "deep") == set()
    assert change(desk_of_shelves, DEEP.replace("w 1d", "w 3d"), "deep") == {"deep"}


def test_shelf_that_another_begins_to_take_from(desk_of_shelves: Desk) -> None:
    """From then on it is looked at, though the handout was not made again."""
    desk_of_shelves.write("shelf/new.licks", "lick run on I\n  w 2d\n  tip breathe low\n")
    text = SHELF.replace('lick run "Home" on I\n  w 2d\n  tip breathe low\n', "use run from new\n")
    desk_of_shelves.write("shelf/corner.licks", shelved(text))
    time.sleep(A_WHILE)
    desk_of_shelves.build()
    assert desk_of_shelves.stale == []
    assert change(desk_of_shelves, "lick run on I\n  w 3d\n", "new") == {"run", "alias"}


def test_shelf_is_read_once_after_a_change(
    desk_of_shelves: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk_of_shelves.write("shelf/corner.licks", shelved(SHELF) + "lick last on V\n  w 1d\n")
    time.sleep(A_WHILE)
    assert desk_of_shelves.stale == []
    monkeypatch.delattr("formsheet.engine.taken.inputs_now")
    assert desk_of_shelves.stale == []


def test_one_part_of_a_handout_after_a_change(desk_of_shelves: Desk) -> None:
    """The others are as good as before."""
    desk_of_shelves.write("shelf/corner.licks", shelved(SHELF) + "lick last on V\n  w 1d\n")
    (desk_of_shelves.out / "run/tune.txt").unlink()
    time.sleep(A_WHILE)
    assert desk_of_shelves.stale == ["run:tune"]
    desk_of_shelves.build()
    assert desk_of_shelves.stale == []


def test_shelf_behind_a_link_that_leads_elsewhere(desk_of_shelves: Desk) -> None:
    folder = desk_of_shelves.lessons / "shelf"
    (folder / "corner.licks").rename(folder / "first.licks")
    (folder / "corner.licks").symlink_to("first.licks")
    time.sleep(A_WHILE)
    assert desk_of_shelves.stale == []
    desk_of_shelves.write("shelf/second.licks", shelved(SHELF.replace("w 2d", "w 3d")))
    (folder / "corner.licks").unlink()
    (folder / "corner.licks").symlink_to("second.licks")
    time.sleep(A_WHILE)
    assert desk_of_shelves.stale == ["alias", "off", "run"]  # `off` names the file


def test_licks_left_on_a_shelf_are_offered_in_errors_only() -> None:
    """So that no handout holds them."""
    told = [
        problem
        for path in ERRORS.glob("*.lesson")
        for problem in examine_file(path, path.name, Shelves(ERRORS)).problems
        if isinstance(problem, kinds.LickWanted)
    ]
    assert {problem.severity for problem in told} == {Severity.ERROR}
