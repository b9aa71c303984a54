"""The interface for other programs: what `formsheet/__init__.py` promises."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

import formsheet
from tests.helpers import lesson_text

GOOD = "lick a on I\n q 2d 3d 4d 3d\nplay\n every I a\n every IV a\n every V a"
WRONG = lesson_text("lick a on I\n q 2d 3d'''' 4d 3d\nplay\n bars 1-12 a")


def good() -> str:
    return lesson_text(GOOD.replace("on I", "on I, IV, V"))


def test_every_name_is_there() -> None:
    for name in formsheet.__all__:
        assert getattr(formsheet, name).__doc__


def test_a_name_that_is_not_there() -> None:
    with pytest.raises(AttributeError, match="no attribute 'chek'"):
        formsheet.chek  # noqa: B018


def test_problems_and_tune_of_a_text() -> None:
    checked = formsheet.check(good())
    assert checked.in_order
    assert checked.tune
    assert [str(note.tab) for note in checked.tune.notes[:4]] == ["2d", "3d", "4d", "3d"]


def test_mistakes_are_data_with_edits() -> None:
    checked = formsheet.check(WRONG, name="mine.lesson")
    problem = next(p for p in checked.problems if p.code == "bend-too-deep")
    (hint,) = problem.hints()
    assert hint.edit
    assert (hint.edit.span.text, hint.edit.text) == ("3d''''", "3d'''")
    assert formsheet.shown(problem).startswith("mine.lesson:")


def test_a_text_with_a_byte_order_mark() -> None:
    assert formsheet.check("\ufeff" + good()).in_order


def test_shelves_of_a_folder(tmp_path: Path) -> None:
    (tmp_path / "corner.licks").write_text("lick a on I, IV, V\n q 2d 3d 4d 3d\n")
    text = lesson_text("use a from corner\nplay\n every I a\n every IV a\n every V a")
    assert formsheet.check(text, folder=tmp_path).in_order
    assert not formsheet.check(text, folder=tmp_path / "elsewhere").in_order


def test_a_shelf_is_judged_as_a_shelf() -> None:
    checked = formsheet.check("lick a on I\n q 2d 3d 4d 3d\n", name="corner.licks")
    assert checked.shelf
    assert checked.in_order


def test_for_another_harp() -> None:
    checked = formsheet.check(good(), harp="low F")
    assert checked.tune
    assert checked.tune.lesson.facts.harp.name == "low F"
    with pytest.raises(ValueError, match="no harp is stamped `H`"):
        formsheet.check(good(), harp="H")


def test_a_file_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    checked = formsheet.check_file(tmp_path / "none.lesson")
    assert [problem.code for problem in checked.problems] == ["file-missing"]


def test_a_handout(tmp_path: Path) -> None:
    lesson = tmp_path / "kitchen.lesson"
    lesson.write_text(good())
    time.sleep(0.05)  # a file written within a tick of its clock is read again the next time
    out = tmp_path / "out"
    handout = formsheet.build(lesson, out, parts=["text", "json"])
    assert handout.folder == out / "kitchen"
    assert {path.name for path in handout.files} == {"tab.txt", "lesson.json"}
    assert all(path.is_file() for path in handout.files)
    assert formsheet.build(lesson, out, parts=["text", "json"]).files == ()


def test_no_handout_of_a_lesson_with_errors(tmp_path: Path) -> None:
    lesson = tmp_path / "kitchen.lesson"
    lesson.write_text(WRONG)
    with pytest.raises(formsheet.LessonError) as caught:
        formsheet.build(lesson, tmp_path / "out")
    assert "bend-too-deep" in {problem.code for problem in caught.value.problems}
    assert "3 draw does not bend" in str(caught.value)
    assert not (tmp_path / "out").exists()


def test_a_part_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="unknown parts: pdf; known: sheet, text"):
        formsheet.build(tmp_path / "kitchen.lesson", parts=["pdf"])


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    lesson = tmp_path / "kitchen.lesson"
    lesson.write_text(good())
    (tmp_path / "out").write_text("a file where the folder should be")
    with pytest.raises(OSError, match="out"):
        formsheet.build(lesson, tmp_path / "out", parts=["text"])


def test_importing_it_imports_nothing_else() -> None:
    code = "import sys, formsheet; print(*(m for m in sys.modules if m.startswith('formsheet')))"
    environment = os.environ | {"PYTHONPATH": str(Path(formsheet.__file__).parent.parent)}
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=environment, check=True
    )
    assert run.stdout.split() == ["formsheet"]
