"""What is put into a handout's folder, what is taken away, and what is left alone."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from formsheet.engine.event import Outcome
from formsheet.engine.gone import remove_gone
from formsheet.engine.place import Asides
from tests.engine.conftest import A_WHILE, Desk, files_below


@pytest.fixture
def one(desk: Desk) -> Desk:
    desk.lesson("a.lesson", "2d", "3d")
    time.sleep(A_WHILE)
    desk.build()
    return desk


def test_files_of_a_handout(one: Desk) -> None:
    assert list(one.made()) == ["a/cards/l0.txt", "a/cards/l1.txt", "a/tune.txt"]


def test_card_whose_lick_is_gone_is_removed(one: Desk) -> None:
    one.lesson("a.lesson", "2d")
    one.build()
    assert list(one.made()) == ["a/cards/l0.txt", "a/tune.txt"]


def test_files_of_others_are_left_alone(one: Desk) -> None:
    (one.out / "a/cards/mine.txt").write_text("mine")
    (one.out / "a/notes.txt").write_text("mine")
    one.lesson("a.lesson", "2d")
    one.build()
    assert {"a/cards/mine.txt", "a/notes.txt"} < set(one.made())


def test_what_a_killed_build_left_is_swept_up(one: Desk) -> None:
    left = one.out / "a/.formsheet-x.part"
    left.write_text("half")
    one.build()
    assert not left.exists()


def test_nothing_is_left_of_parts_that_fail(one: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = one.made()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    one.lesson("a.lesson", "4d")
    monkeypatch.setattr("formsheet.engine.place.os.fsync", full)
    event = one.build()["a"]
    assert (event.outcome, "No space left" in event.reason) == (Outcome.FAILED, True)
    assert one.made() == whole
    assert not list(one.out.rglob("*.part"))


def test_first_build_that_fails_leaves_no_folder(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    desk.lesson("a.lesson")
    with monkeypatch.context() as patch:
        patch.setattr("formsheet.engine.place.write_aside", full)
        assert desk.build()["a"].outcome is Outcome.FAILED
    assert not (desk.out / "a").exists()
    with monkeypatch.context() as patch:  # names were noted as ours by then
        patch.setattr(Asides, "put", full)
        assert desk.build()["a"].outcome is Outcome.FAILED
    assert not (desk.out / "a").exists()
    assert desk.build()["a"].outcome is Outcome.BUILT


def test_failed_build_leaves_what_others_put_into_its_folder(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    def scribble(self: Asides) -> None:
        (self.folder / "mine.txt").write_text("mine")
        raise OSError(28, "No space left on device")

    desk.lesson("a.lesson")
    monkeypatch.setattr(Asides, "put", scribble)
    desk.build()
    assert list(desk.made()) == ["a/mine.txt"]


def test_lesson_with_errors_makes_no_folder(desk: Desk) -> None:
    desk.lesson("a.lesson", "11d")
    event = desk.build()["a"]
    assert (event.outcome, event.kept, desk.out.exists()) == (Outcome.WRONG, None, False)


def test_handout_of_a_lesson_with_errors_is_said_to_stay(one: Desk) -> None:
    one.lesson("a.lesson", "11d")
    assert one.build()["a"].kept == one.out / "a"


@pytest.mark.parametrize("name", ["../x", "/x", "a/../../x", "", "."])
def test_no_part_writes_outside_its_folder(tmp_path: Path, name: str) -> None:
    with Asides(tmp_path) as asides, pytest.raises(ValueError, match="makes a file"):
        asides.add(name, b"")
    assert not list(tmp_path.iterdir())


def test_same_bytes_in_any_place_on_any_run(one: Desk, tmp_path: Path) -> None:
    other = Desk(tmp_path / "elsewhere")
    other.lesson("a.lesson", "2d", "3d")
    other.build()
    assert other.made() == one.made()
    one.again()
    assert other.made() == one.made()


def test_handout_of_a_lesson_that_is_gone_stays_until_asked(one: Desk) -> None:
    one.lesson("b.lesson", "4d")
    one.build()
    (one.out / "a/notes.txt").write_text("mine")
    (one.lessons / "a.lesson").unlink()
    one.build()
    assert (one.out / "a/tune.txt").exists()
    assert list(remove_gone(one.out, [one.lessons])) == [one.out / "a"]
    assert list(files_below(one.out)) == ["a/notes.txt", "b/cards/l0.txt", "b/tune.txt"]


def test_nothing_is_removed_where_the_lessons_folder_is_not_the_one_named(one: Desk) -> None:
    (one.lessons / "a.lesson").unlink()
    assert list(remove_gone(one.out, [one.out])) == []
    assert list(remove_gone(one.out, [one.lessons.with_name("away")])) == []


def test_folders_of_a_week_that_is_gone_are_removed(one: Desk) -> None:
    one.lesson("week 1/monday/b.lesson", "4d")
    one.build()
    (one.lessons / "week 1/monday/b.lesson").unlink()
    assert list(remove_gone(one.out, [one.lessons])) == [one.out / "week 1/monday/b"]
    assert [path.name for path in one.out.iterdir()] == ["a"]
