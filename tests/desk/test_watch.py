"""What a watch reads again, when it tells, and what it keeps."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from time import monotonic, sleep

import pytest

from formsheet.desk.board import Board, Known, Standing
from formsheet.desk.folder import Found
from formsheet.desk.watch import PATIENCE, Watch
from formsheet.sheet.options import Options
from tests.desk.told import BROKEN, GOOD, SHELF, TAKES_HOME, WARNED, Told


class Bench:
    """A folder, its watch, and what it told; the test is the one that sees changes."""

    def __init__(self, home: Path) -> None:
        self.home = home
        home.mkdir()
        self.board, self.told = Board(), Told()
        self.built: list[str] = []
        self.watch = Watch(home, self.board, self.told, self._build, Options())

    def _build(self, found: Found) -> None:
        self.built.append(found.name)

    def write(self, name: str, text: str) -> None:
        (self.home / name).parent.mkdir(parents=True, exist_ok=True)
        (self.home / name).write_text(text, encoding="utf-8")

    def seen(self, *names: str) -> None:
        """A change of these is seen."""
        root = os.path.realpath(self.home)
        self.watch.put_batch(frozenset(os.path.join(root, name) for name in names))
        self.watch.step(0.01)

    def begin(self) -> None:
        """All is read once."""
        self.seen()
        self.until(lambda: any(line.startswith("first") for line in self.told.lines))
        self.told.lines.clear()
        self.built.clear()

    def until(self, true: Callable[[], bool], longest: float = 5.0) -> None:
        end = monotonic() + longest
        while not true():
            assert monotonic() < end, self.told.lines
            self.watch.step(0.02)

    def settle(self) -> list[str]:
        """What is told until nothing more is to come."""
        end = monotonic() + 2.5 * PATIENCE
        while monotonic() < end:
            self.watch.step(0.02)
        return self.told.lines

    def known(self, name: str) -> Known:
        found = self.board.get(name)
        assert found
        return found


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(tmp_path / "lessons")


def test_all_is_read_at_first_and_nothing_told_but_once(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.write("b.lesson", BROKEN)
    bench.write("shelf/corner.licks", SHELF)
    bench.seen()
    bench.until(lambda: bool(bench.told.lines))
    assert bench.told.lines == ["first look at 3"]
    assert [each.standing for each in bench.board.all()[1]] == [
        Standing.IN_ORDER, Standing.ERRORS, Standing.IN_ORDER,
    ]  # fmt: skip
    assert bench.built == ["a.lesson"]


def test_only_what_changed_is_read_again(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.write("b.lesson", GOOD)
    bench.begin()
    bench.write("b.lesson", WARNED)
    bench.seen("b.lesson")
    assert bench.settle() == ["b.lesson: warnings"]
    assert bench.built == ["b.lesson"]


def test_a_shelf_takes_its_lessons_along_and_no_others(bench: Bench) -> None:
    bench.write("shelf/corner.licks", SHELF)
    bench.write("a.lesson", GOOD)
    bench.write("winter/b.lesson", TAKES_HOME)
    bench.begin()
    before = bench.known("winter/b.lesson").sheet
    bench.write("shelf/corner.licks", SHELF.replace("2d", "1d"))
    bench.seen("shelf/corner.licks")
    assert sorted(bench.settle()) == ["shelf/corner.licks: in order", "winter/b.lesson: in order"]
    assert bench.known("winter/b.lesson").sheet != before


def test_a_shelf_looked_for_in_vain_is_noticed_when_it_comes(bench: Bench) -> None:
    bench.write("b.lesson", TAKES_HOME)
    bench.begin()
    assert bench.known("b.lesson").standing is Standing.ERRORS
    bench.write("corner.licks", SHELF)
    bench.seen("corner.licks")
    bench.settle()
    assert bench.known("b.lesson").standing is Standing.IN_ORDER


def test_good_news_is_told_before_bad_news_would_be(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    bench.write("a.lesson", WARNED)
    bench.seen("a.lesson")
    bench.until(lambda: bool(bench.told.lines), longest=PATIENCE)
    assert bench.told.lines == ["a.lesson: warnings"]


def test_errors_are_told_after_a_quiet_moment_and_the_sheet_stays(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    good = bench.known("a.lesson").sheet
    bench.write("a.lesson", BROKEN)
    bench.seen("a.lesson")
    assert bench.known("a.lesson").standing is Standing.IN_ORDER
    assert bench.settle() == ["a.lesson: errors"]
    assert good
    assert bench.known("a.lesson").sheet == good
    assert bench.built == []


@pytest.mark.parametrize("half", ["", GOOD[:40], GOOD[: len(GOOD) // 2]])
def test_a_file_half_written_is_not_told(bench: Bench, half: str) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    bench.write("a.lesson", half)
    bench.seen("a.lesson")
    sleep(PATIENCE / 3)
    bench.write("a.lesson", WARNED)
    bench.seen("a.lesson")
    assert bench.settle() == ["a.lesson: warnings"]


def test_written_aside_and_renamed(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    (bench.home / "a.lesson").rename(bench.home / "a.lesson~")
    bench.seen("a.lesson", "a.lesson~")
    bench.write("a.lesson", WARNED)
    bench.seen("a.lesson")
    assert bench.settle() == ["a.lesson: warnings"]


def test_a_file_that_goes_is_told_and_its_sheet_stays(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    (bench.home / "a.lesson").unlink()
    bench.seen("a.lesson")
    assert bench.settle() == ["a.lesson: gone"]
    assert bench.known("a.lesson").standing is Standing.GONE
    assert bench.known("a.lesson").sheet
    bench.write("a.lesson", GOOD)
    bench.seen("a.lesson")
    assert bench.settle() == ["a.lesson: gone", "a.lesson: in order"]


def test_a_folder_renamed_takes_its_lessons_along(bench: Bench) -> None:
    """Of which the system tells the folder alone."""
    bench.write("winter/a.lesson", GOOD)
    bench.begin()
    (bench.home / "winter").rename(bench.home / "summer")
    bench.seen("winter", "summer")
    assert bench.settle() == ["summer/a.lesson: in order", "winter/a.lesson: gone"]


def test_the_whole_folder_gone_and_back(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    bench.home.rename(bench.home.with_name("elsewhere"))
    bench.watch.put_batch(None)
    assert bench.settle() == ["folder gone", "a.lesson: gone"]
    bench.home.with_name("elsewhere").rename(bench.home)
    bench.watch.put_batch(frozenset())
    assert bench.settle()[2:] == ["folder back", "a.lesson: in order"]


def test_a_change_nobody_told_of_is_seen_at_the_next_look(bench: Bench) -> None:
    bench.write("a.lesson", GOOD)
    bench.begin()
    bench.write("a.lesson", WARNED)
    bench.seen()
    assert bench.settle() == ["a.lesson: warnings"]


def test_a_folder_without_lessons_gets_its_first(bench: Bench) -> None:
    bench.seen()
    bench.write("a.lesson", GOOD)
    bench.seen("a.lesson")
    bench.settle()
    assert bench.known("a.lesson").standing is Standing.IN_ORDER
