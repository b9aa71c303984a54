"""Lessons that are wrong in one musical way each: that is said, and nothing beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import drawn
from formsheet.stages import examine_file
from tests.helpers import NO_FOLDER

HERE = Path(__file__).parent

#: File -> what a careful colleague says of it, by the kind of problem.
SAID = {
    "unbent-third-over-IV": ["note-clash"],
    "I-lick-over-V": ["lick-wrong-chord"],
    "no-root-at-the-landing": ["landing-missing"],
    "block-of-the-wrong-chord": ["note-clash"],
    "leap-of-seven-holes": ["slide-too-fast"],
    "short-swing": ["swing-short-note"],
    "overblow-on-8": ["overbend-missing"],
    "shake-on-10": ["shake-nowhere"],
    "minor-third-over-minor": [],
    "major-third-over-minor": ["note-clash"],
    "clash-that-is-meant": ["note-clash-deliberate"],
}


def report(name: str) -> tuple[list[str], str]:
    """The kinds of the problems of a lesson, and how they are printed."""
    file = f"{name}.lesson"
    problems = examine_file(HERE / file, file, Shelves(NO_FOLDER)).problems
    return [p.code for p in problems], "".join(f"{drawn(p)}\n" for p in problems)


def test_every_lesson_is_in_the_table() -> None:
    assert {path.stem for path in HERE.glob("*.lesson")} == set(SAID)


@pytest.mark.parametrize("name", SAID)
def test_just_that_is_said_and_nothing_beside_it(name: str) -> None:
    assert report(name)[0] == SAID[name]


@pytest.mark.parametrize("name", SAID)
def test_report_is_the_golden_one(name: str) -> None:
    assert report(name)[1] == (HERE / f"{name}.txt").read_text(encoding="utf-8")


def rewrite() -> None:
    """Write the reports anew: `python -m tests.colleague.test_colleague`. Read every change."""
    for name in SAID:
        (HERE / f"{name}.txt").write_text(report(name)[1], encoding="utf-8")


if __name__ == "__main__":
    rewrite()
