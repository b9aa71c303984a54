"""What someone types who has only just begun, and all that is printed.

`tests/golden/first-steps/NAME.txt` holds it; `python -m tests.commands.test_first_steps` writes
it anew: read each change.
"""

from __future__ import annotations

import os
import shlex
from collections.abc import Sequence
from contextlib import chdir, redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from formsheet.cli import main
from formsheet.commands.help import FIRST_PAGE
from formsheet.engine.parts import ENDINGS, PARTS
from tests.commands.shells import whole
from tests.helpers import lesson_text, over, own_form
from tests.test_lessons import GOLDEN

WANTED = GOLDEN / "first-steps"
KITCHEN = over("I", "w 3x")  # with an error, so that there is something to say
SHELF = "lick home on I\n  w 2d\n"
USES_A_SHELF = lesson_text("use home from turnarounds\nplay\n every I home", form=own_form("I"))

#: A file of these is there: its name below the folder in which the command is typed -> its text.
FILES = {
    "kitchen.lesson": KITCHEN,
    "lessons/attic.lesson": KITCHEN,
    "lessons/corner.licks": SHELF,
    "lessons/shelf/turnarounds.licks": SHELF,
    "lessons/winter/sleigh.lesson": USES_A_SHELF,
    "outside.lesson": USES_A_SHELF,
    "mill lane.lesson": KITCHEN,
    "garden.lesson.txt": KITCHEN,
}

#: The name of a golden file -> the words after `formsheet`.
TYPED = {
    "nothing": "",
    "help": "help",
    "help-of-a-command": "help joins",
    "help-of-none": "help chek",
    "lesson-without-its-ending": "check kitchen --quiet",
    "lesson-in-a-folder-without-its-ending": "check lessons/attic --quiet",
    "shelf-without-its-ending": "fit lessons/corner home --form 8-bar",
    "lesson-that-is-not-there": "check cellar",
    "lesson-misspelt": "check kitchn.lesson",
    "lesson-in-the-folder-lessons": "show attic",
    "shelf-where-a-lesson-is-wanted": "show lessons/corner",
    "shelf-in-the-folder-lessons": "check outside.lesson",
    "shelf-of-the-folder-above": "check lessons/winter/sleigh.lesson",
    "part-by-its-ending": "build lessons --only pdf",
    "parts-by-their-endings": "build lessons --only sheet,.wav",
    "part-that-is-not-there": "build lessons --only posters",
    "parts-of-which-one-needs-an-option": "build kitchen.lesson --only pdf,wav",
    "no-command": "kitchen.lesson",
    "command-after-the-file": "kitchen.lesson check --quiet",
    "command-misspelt": "bulid kitchen.lesson",
    "command-of-another-program": "transpose kitchen.lesson --position 1st",
    "command-that-is-not-there": "zzz kitchen.lesson",
    "txt-after-the-ending": "check garden.lesson",
    "txt-after-the-ending-typed": "check garden.lesson.txt",
    "lick-before-the-file": "fit porch kitchen.lesson",
    "option-of-another-name": "build kitchen.lesson --paper Letter --portrait",
    "option-misspelt": "build kitchen.lesson --portait",
    "option-that-is-not-there": "check kitchen.lesson --zzz",
    "option-without-its-value": "build kitchen.lesson --harp",
    "option-with-a-long-dash": "build kitchen.lesson —large",
    "option-with-one-hyphen": "build kitchen.lesson -harp G",
    "option-without-hyphens": "build kitchen.lesson large",
    "value-without-its-option": "retab kitchen.lesson 1st",
    "choice-that-is-not-there": "build kitchen.lesson --page A5",
    "choice-misspelt": "build kitchen.lesson --page leter",
    "number-out-of-range": "build kitchen.lesson --jobs 0",
    "form-without-quotes": "chords --harp A --position 3rd --form 12-bar minor",
    "harps-without-quotes": "build kitchen.lesson --harp C, A, low F",
    "title-without-quotes": "new cellar --title Down the cellar",
    "quotes-of-a-word-processor": "chords --form “12-bar minor”",
    "position-by-its-nickname": "new cellar --position cross",
    "file-name-with-a-space": "show mill lane.lesson",
    "german-notes": "tab 'q G4 | e H4 D5 E5 D5 h H4'",
    "sung-notes": "tab 'q Sol4 La4 Si4 Ré5 | h Si4 Sol4' --harp Do",
    "notes-without-quotes": "tab q G4 A4 B4 D5 --harp C",
    "position-for-build": "build kitchen.lesson --position cross --harp G --portrait",
    "file-missing": "check",
    "two-files-for-one": "show kitchen.lesson outside.lesson",
}


def printed(words: Sequence[str]) -> str:
    """The command as typed, what it prints on output and error, and its exit status."""
    out, err = StringIO(), StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        try:
            status = main(words)
        except SystemExit as stopped:
            status = int(stopped.code or 0)
    typed = " ".join(["$ formsheet", *map(shlex.quote, words)])
    shown = {"output": out.getvalue(), "error": err.getvalue()}
    parts = (f"--- {name}\n{text}" for name, text in shown.items() if text)
    return "\n".join([typed, *(part.rstrip("\n") for part in parts), f"--- status {status}", ""])


def in_a_folder(folder: Path, words: str) -> str:
    """What is printed where the command is typed in a folder with FILES."""
    for name, text in FILES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    with chdir(folder):
        return printed(shlex.split(words))


@pytest.fixture(autouse=True)
def _width(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")  # to which help is filled


@pytest.mark.parametrize("name", TYPED)
def test_first_steps(name: str, tmp_path: Path) -> None:
    wanted = (WANTED / f"{name}.txt").read_text(encoding="utf-8")
    assert in_a_folder(tmp_path, TYPED[name]) == wanted


def test_no_file_is_left_of_a_step_that_is_gone() -> None:
    assert {path.stem for path in WANTED.iterdir()} == set(TYPED)


# ---- The first page --------------------------------------------------------------------------


def test_the_first_page_fits_a_small_terminal() -> None:
    assert max(map(len, FIRST_PAGE.splitlines())) <= 80


def test_commands_of_the_first_page_are_read() -> None:
    lines = [line.split("  ")[1] for line in FIRST_PAGE.splitlines() if "  formsheet " in line]
    assert [line.split()[1] for line in lines[:4]] == ["new", "check", "watch", "build"]
    for line in lines:
        _, *words = shlex.split(line)
        if words != ["--help"]:
            assert whole().parse_args(words).run


# ---- Names without their ending --------------------------------------------------------------


def test_a_folder_comes_before_a_lesson_of_its_name(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "kitchen").mkdir()
    (tmp_path / "kitchen" / "inside.lesson").write_text(KITCHEN)
    (tmp_path / "kitchen.lesson").write_text(KITCHEN)
    assert main(["check", str(tmp_path / "kitchen")]) == 1
    assert "inside.lesson" in capsys.readouterr().out


def test_a_lesson_comes_before_a_shelf_of_its_name(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "kitchen.lesson").write_text(KITCHEN)
    (tmp_path / "kitchen.licks").write_text(SHELF)
    assert main(["check", str(tmp_path / "kitchen")]) == 1
    assert "kitchen.lesson" in capsys.readouterr().out


def test_an_ending_names_the_part_that_makes_its_files() -> None:
    """Each part makes files, and each of its files can be asked for by its ending."""
    assert set(ENDINGS.values()) == set(PARTS)


# ---- Written anew ----------------------------------------------------------------------------


def rewrite() -> None:
    """Write all golden files."""
    os.environ["COLUMNS"] = "80"
    for name, words in TYPED.items():
        with TemporaryDirectory() as folder:
            (WANTED / f"{name}.txt").write_text(in_a_folder(Path(folder), words), encoding="utf-8")


if __name__ == "__main__":
    rewrite()
