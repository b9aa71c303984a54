"""Builds that are killed, and builds that meet."""

from __future__ import annotations

from pathlib import Path

from tests.engine.conftest import files_below
from tests.faults.killed import finish, killed_builds, lessons_in, start


def test_killed_builds_leave_nothing_half_and_the_last_one_makes_the_same_bytes() -> None:
    outcome = killed_builds(kills=6, seed=3, count=6)
    assert (outcome.torn, outcome.same, outcome.strays) == (0, True, ())


def test_builds_at_once_do_not_harm_each_other(tmp_path: Path) -> None:
    lessons, out = tmp_path / "lessons", tmp_path / "out"
    lessons_in(lessons, 6, "one")
    together = [start(lessons, out) for _ in range(3)]
    assert [process.wait(timeout=120) for process in together] == [0, 0, 0]
    finish(lessons, tmp_path / "alone")
    assert files_below(out) == files_below(tmp_path / "alone")
    assert not list(out.rglob("*.part"))
