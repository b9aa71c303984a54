"""The demo lessons: in order, without a warning, and the same tune as ever."""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from formsheet.problems.problem import Severity
from formsheet.report.data import tune_data
from formsheet.report.table import check_table, heading, tune_table
from formsheet.stages import Examined
from tests.helpers import told
from tests.lessons import LESSONS, NAMES, demo

GOLDEN = Path(__file__).parent / "golden"


def tune_text(examined: Examined) -> str:
    """What `check` and `show` print of a tune."""
    assert examined.lesson
    assert examined.tune
    parts = [heading(examined.lesson).splitlines(), check_table(examined)]
    parts.append(tune_table(examined.tune, examined.fits))
    return "\n\n".join("\n".join(part) for part in parts) + "\n"


def test_there_are_lessons() -> None:
    assert len(NAMES) >= 5


@pytest.mark.parametrize("name", NAMES)
def test_demo_lesson_checks_without_a_warning(name: str) -> None:
    problems = [p for p in demo(name).problems if p.severity > Severity.REMARK]
    assert not problems, told(tuple(problems))


@pytest.mark.parametrize("name", NAMES)
def test_remarks_are_about_what_is_meant(name: str) -> None:
    """A clash marked with `!`."""
    codes = [problem.code for problem in demo(name).problems]
    meant = {"last-tram-but-one": ["note-clash-deliberate"]}
    assert codes == meant.get(name, [])


@pytest.mark.parametrize("name", NAMES)
def test_assembled_tune_is_the_golden_one(name: str) -> None:
    golden = GOLDEN / f"{name}.txt"
    assert tune_text(demo(name)) == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_data_of_the_tune_is_whole(name: str) -> None:
    data = json.loads(json.dumps(tune_data(demo(name))))
    bars = [bar for bar in data["bars"] if bar["number"]]
    tune = demo(name).tune
    assert tune
    assert len(bars) == len(tune.choruses) * len(tune.lesson.form.bars)
    notes = [note for bar in data["bars"] for note in bar["notes"]]
    assert all(Fraction(note["duration"]) > 0 for note in notes)
    assert all(a["end_s"] <= b["start_s"] + 1e-9 for a, b in pairwise(notes))


def test_a_turnaround_is_shared_by_two_lessons() -> None:
    texts = [path.read_text(encoding="utf-8") for path in LESSONS.glob("*.lesson")]
    assert sum("from turnarounds" in text for text in texts) >= 2


def rewrite() -> None:
    """Write the golden tunes anew: `python -m tests.test_lessons`. Read every change."""
    GOLDEN.mkdir(exist_ok=True)
    for name in NAMES:
        (GOLDEN / f"{name}.txt").write_text(tune_text(demo(name)), encoding="utf-8")


if __name__ == "__main__":
    rewrite()
