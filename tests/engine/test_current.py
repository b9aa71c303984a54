"""What counts as current, and what makes it stale."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from formsheet.engine.event import Outcome
from formsheet.engine.make import make
from formsheet.engine.record import RECORD
from formsheet.engine.tool import Tool
from formsheet.music.harp import Harp
from formsheet.sheet.options import Options
from tests.engine.conftest import A_WHILE, Desk


@pytest.fixture
def two(desk: Desk) -> Desk:
    """Two lessons, one of which uses a shelf, built."""
    desk.lesson("a.lesson", "2d", "3d")
    desk.using("b.lesson", "corner")
    desk.shelf("shelf/corner.licks", "2d")
    time.sleep(A_WHILE)
    desk.build()
    return desk


def test_what_is_made_is_current(two: Desk) -> None:
    assert two.stale == []
    assert [target.folder.name for target in two.plan().current] == ["a", "b"]


def test_what_was_never_made_is_stale(desk: Desk) -> None:
    desk.lesson("a.lesson")
    assert desk.stale == ["a"]


def test_lesson_changed(two: Desk) -> None:
    two.lesson("a.lesson", "4d")
    assert two.stale == ["a"]


def test_shelf_changed(two: Desk) -> None:
    two.shelf("shelf/corner.licks", "4d")
    assert two.stale == ["b"]


def test_shelf_that_a_shelf_uses_changed(two: Desk) -> None:
    two.write("shelf/corner.licks", "use run from deep\n")
    two.shelf("shelf/deep.licks", "2d")
    time.sleep(A_WHILE)
    two.build()
    assert two.stale == []
    two.shelf("shelf/deep.licks", "3d")
    assert two.stale == ["b"]


def test_shelf_that_comes_first_appears(two: Desk) -> None:
    """Beside the lesson: it is looked for there before the shelf folder."""
    two.shelf("corner.licks", "4d")
    assert two.stale == ["b"]


def test_shelf_gone(two: Desk) -> None:
    (two.lessons / "shelf/corner.licks").unlink()
    assert two.stale == ["b"]


def test_same_text_written_anew_is_current(two: Desk) -> None:
    path = two.lessons / "a.lesson"
    path.write_text(path.read_text())
    assert two.stale == []


def test_change_that_hides_behind_the_old_time_and_size(two: Desk) -> None:
    path = two.lessons / "a.lesson"
    before = path.stat()
    path.write_text(path.read_text().replace("2d", "5d"))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert path.stat().st_size == before.st_size
    assert two.stale == ["a"]


@pytest.mark.parametrize("harm", [Path.unlink, lambda path: path.write_bytes(b"scribbled")])
def test_file_lost_or_altered_is_made_again(two: Desk, harm: object) -> None:
    whole = two.made()
    assert callable(harm)
    harm(two.out / "a/cards/l1.txt")
    assert two.stale == ["a:licks"]
    two.build()
    assert two.made() == whole


def test_other_choices(two: Desk) -> None:
    two.options = Options(page_size="Letter")
    assert two.stale == ["a", "b"]


def test_one_part_only(two: Desk) -> None:
    two.lesson("a.lesson", "4d", "5d")
    time.sleep(A_WHILE)
    two.parts = ("tune",)
    two.build()
    two.parts = ("tune", "licks")
    assert two.stale == ["a:licks"]


def test_harp_has_a_handout_of_its_own(two: Desk) -> None:
    two.harps = (None, Harp("A"))
    assert two.stale == ["a-harp-A", "b-harp-A"]
    two.build()
    assert two.stale == []


def test_another_formsheet(two: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("formsheet.engine.tool._versions", lambda: {"lark 99"})
    assert two.stale == []  # nothing on the disk has changed, so it is not asked
    monkeypatch.setattr(Tool, "seen", "moved")
    assert two.stale == ["a", "b"]


def test_same_formsheet_in_another_place(two: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Tool, "seen", "moved")
    assert two.stale == []
    assert '"tool_seen": "moved"' in (two.out / "a" / RECORD).read_text()


@pytest.mark.parametrize(
    "text", ["", "{}", "[]", "null", "{", '{"layout": 1}', '{"layout": 2}', "[" * 100_000, "\xff"]
)
def test_record_that_is_spoilt(two: Desk, text: str) -> None:
    whole = two.made()
    (two.out / "a" / RECORD).write_text(text, encoding="latin-1")
    assert two.stale == ["a"]
    two.build()
    assert (two.stale, two.made()) == ([], whole)


def test_lesson_saved_while_it_is_built_is_stale(desk: Desk) -> None:
    """It may have been read before or after."""
    path = desk.lesson("a.lesson")
    for started_ns, stale in (
        (path.stat().st_ctime_ns, ["a"]),
        (path.stat().st_ctime_ns + 10**9, []),
    ):
        make(desk.targets[0], Tool(), started_ns=started_ns, again=True)
        time.sleep(A_WHILE)
        assert desk.stale == stale


def test_lesson_with_errors_keeps_its_last_handout_and_stays_stale(two: Desk) -> None:
    whole = two.made()
    two.lesson("a.lesson", "11d")
    assert two.build()["a"].outcome is Outcome.WRONG
    assert (two.stale, two.made()) == (["a"], whole)


def test_moving_the_whole_folder_leaves_all_current(two: Desk) -> None:
    moved = two.lessons.parent.rename(two.lessons.parent.with_name("moved"))
    there = Desk(moved)
    assert there.stale == []


def test_lessons_folder_behind_a_link(two: Desk) -> None:
    link = two.lessons.parent / "link"
    link.symlink_to(two.lessons)
    two.lessons = link
    assert two.stale == []
    two.again()
    assert two.stale == []
