"""The commands: exit status, what goes where, and the data of `--json`."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from formsheet import __version__
from formsheet.cli import main
from formsheet.language.files import read_source
from formsheet.problems.problem import Problem
from formsheet.source import Source
from tests.helpers import lesson_text, over, own_form

GOOD = over("I | IV", "e 2d 3d h. - | w 4b", feel="swing")
WARNED = over("IV7", "w 3d")
BROKEN = over("I", "w 3x")
SHELF = "lick home on I\n  w 2d\n"


class Desk:
    """A folder of lessons, and what the last command printed."""

    def __init__(self, path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.path = path
        self.capsys = capsys
        self.out = self.err = ""

    def write(self, name: str, text: str) -> str:
        path = self.path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return str(path)

    def run(self, *words: str) -> int:
        try:
            status = main(words)
        except SystemExit as stopped:
            status = int(stopped.code or 0)
        self.out, self.err = self.capsys.readouterr()
        return status

    def data(self, *words: str) -> Any:
        self.run(*words)
        return json.loads(self.out)


@pytest.fixture
def desk(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Desk:
    return Desk(tmp_path, capsys)


# ---- Exit status -------------------------------------------------------------------------


@pytest.mark.parametrize("command", ["check", "show"])
@pytest.mark.parametrize(("text", "status"), [(GOOD, 0), (WARNED, 0), (BROKEN, 1), ("", 1)])
@pytest.mark.parametrize("more", [[], ["--json"]])
def test_status_of_a_lesson(
    desk: Desk, command: str, text: str, status: int, more: list[str]
) -> None:
    assert desk.run(command, desk.write("a.lesson", text), *more) == status
    assert desk.out
    assert not desk.err


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["chek"],
        ["check"],
        ["show"],
        ["build"],
        ["check", "--jsn", "{good}"],
        ["check", "{folder}/no.lesson"],
        ["check", "{folder}/notes.txt"],
        ["check", "{folder}/empty"],
        ["show", "{folder}/no.lesson"],
        ["show", "{folder}/corner.licks"],
        ["show", "{good}", "{good}"],
        ["build", "{folder}/no.lesson"],
        ["build", "{folder}/corner.licks"],
        ["build", "{good}", "--page", "A5"],
    ],
)
def test_wrong_usage(desk: Desk, words: list[str]) -> None:
    good = desk.write("a.lesson", GOOD)
    desk.write("corner.licks", SHELF)
    desk.write("notes.txt", GOOD)
    (desk.path / "empty").mkdir()
    assert desk.run(*(word.format(good=good, folder=desk.path) for word in words)) == 2
    assert (desk.out, desk.err.strip() != "") == ("", True)


def test_help_and_version(desk: Desk) -> None:
    assert desk.run("--help") == 0
    assert all(command in desk.out for command in ("check", "show", "build"))
    assert desk.run("--version") == 0
    assert desk.out.split() == ["formsheet", __version__]


def test_one_broken_lesson_among_good_ones(desk: Desk) -> None:
    desk.write("a.lesson", GOOD)
    desk.write("b.lesson", BROKEN)
    assert desk.run("check", str(desk.path)) == 1


@pytest.mark.parametrize(("text", "status"), [(SHELF, 0), (SHELF.replace("2d", "5d'"), 1)])
def test_status_of_a_shelf(desk: Desk, text: str, status: int) -> None:
    assert desk.run("check", desk.write("corner.licks", text)) == status


# ---- What is printed ---------------------------------------------------------------------


def test_check_of_a_folder(desk: Desk) -> None:
    """Every lesson and shelf below it, each once, in order of their names."""
    desk.write("b.lesson", GOOD)
    desk.write("a.lesson", GOOD)
    desk.write("shelf/corner.licks", SHELF)
    folder = str(desk.path)
    data = desk.data("check", "--json", folder, f"{folder}/a.lesson")
    assert [Path(each["file"]).name for each in data["files"]] == [
        "a.lesson", "b.lesson", "corner.licks",
    ]  # fmt: skip


def test_check_prints_a_bar_a_line_and_the_findings(desk: Desk) -> None:
    desk.run("check", desk.write("a.lesson", WARNED))
    assert "Test Blues" in desk.out
    assert "3d (7)" in desk.out
    assert "warning:" in desk.out
    assert "[note-clash]" in desk.out


def test_mistake_of_a_shared_shelf_is_told_once(desk: Desk) -> None:
    desk.write("shelf/corner.licks", SHELF.replace("2d", "2x"))
    use = lesson_text("use home from corner\nplay\n every I home", form=own_form("I"))
    desk.write("a.lesson", use)
    desk.write("b.lesson", use)
    assert desk.run("check", str(desk.path)) == 1
    assert desk.out.count("[note-breath]") == 1


def test_show_of_a_broken_lesson_says_why(desk: Desk) -> None:
    desk.run("show", desk.write("a.lesson", BROKEN))
    assert "[note-breath]" in desk.out


def test_shelves_are_looked_for_from_the_lessons_folder(desk: Desk) -> None:
    desk.write("shelf/corner.licks", SHELF)
    desk.write(
        "winter/a.lesson",
        lesson_text("use home from corner\nplay\n every I home", form=own_form("I")),
    )
    assert desk.run("check", str(desk.path)) == 0


# ---- Data --------------------------------------------------------------------------------


def test_data_of_check(desk: Desk) -> None:
    (found,) = desk.data("check", "--json", desk.write("a.lesson", WARNED))["files"]
    assert found["in_order"] is True
    (bar,) = found["bars"]
    assert (bar["fit"], bar["first"]) == (
        "0", {"tab": "3d", "degree": "7", "verdict": "avoid"},
    )  # fmt: skip
    (problem,) = found["problems"]
    assert (problem["code"], problem["severity"]) == ("note-clash", "warning")
    assert (problem["line"], problem["column"], problem["end_column"]) == (9, 3, 5)
    assert problem["message"]
    assert problem["hints"]


def test_data_of_check_of_a_broken_lesson(desk: Desk) -> None:
    (found,) = desk.data("check", "--json", desk.write("a.lesson", BROKEN))["files"]
    assert (found["in_order"], "bars" in found) == (False, False)
    assert [problem["code"] for problem in found["problems"]] == ["note-breath"]


def test_data_of_show(desk: Desk) -> None:
    """C harp, second position: 2 draw is G4 (67), 3 draw B4 (71), 4 blow C5 (72)."""
    data = desk.data("show", "--json", desk.write("a.lesson", GOOD))
    assert {fact: data[fact] for fact in (
        "title", "harp", "position", "key", "form", "tempo", "meter", "feel")} == {
        "title": "Test Blues", "harp": "C", "position": "2nd", "key": "G", "form": "Own",
        "tempo": 60, "meter": "4/4", "feel": "swing",
    }  # fmt: skip
    first, second = data["bars"]
    assert [first[k] for k in ("number", "chorus", "chords", "lick", "time")] == [
        1, 1, ["I"], "run", 1,
    ]  # fmt: skip
    two, three = first["notes"]
    assert three | {"start_s": pytest.approx(2 / 3), "end_s": 1.0, "tab": "3d", "onset": "1/2",
                    "duration": "1/2", "midi": [71], "pitch": ["B4"], "degree": "3",
                    "verdict": "chord tone"} == three  # fmt: skip
    assert (two["pitch"], two["degree"], two["start_s"]) == (["G4"], "R", 0.0)
    (four,) = second["notes"]
    assert (four["onset"], four["duration"], four["start_s"], four["end_s"]) == ("0", "4", 4.0, 8.0)


@pytest.mark.parametrize(
    ("facts", "key"),
    [({"harp": "G"}, "D"), ({"harp": "Bb", "position": "3rd", "form": "12-bar minor"}, "C minor"),
     ({"harp": "low F"}, "C"), ({"harp": "B"}, "F#"), ({"harp": "Ab"}, "Eb")],
)  # fmt: skip
def test_name_of_the_key(desk: Desk, facts: dict[str, str], key: str) -> None:
    path = desk.write("a.lesson", lesson_text("play\n bars 1-12 rest", **facts))
    data = desk.data("show", "--json", path)
    assert (data["key"], data["harp"]) == (key, facts["harp"])


def test_durations_and_onsets_are_exact(desk: Desk) -> None:
    path = desk.write("a.lesson", over("I", "pickup e3 1d\n e3 2d 3d 2d h. -"))
    bars = desk.data("show", "--json", path)["bars"]
    assert bars[0]["number"] == 0
    notes = [note for bar in bars for note in bar["notes"]]
    assert [(Fraction(n["onset"]), Fraction(n["duration"])) for n in notes] == [
        (Fraction(11, 3), Fraction(1, 3)), (Fraction(0), Fraction(1, 3)),
        (Fraction(1, 3), Fraction(1, 3)), (Fraction(2, 3), Fraction(1, 3)),
    ]  # fmt: skip


def test_rest_in_the_data(desk: Desk) -> None:
    path = desk.write("a.lesson", lesson_text("play x2\n bar 1 rest", form=own_form("I IV")))
    bars = desk.data("show", "--json", path)["bars"]
    assert [(b["number"], b["chorus"], b["chords"], b["lick"], b["notes"]) for b in bars] == [
        (1, 1, ["I", "IV"], None, []), (1, 2, ["I", "IV"], None, []),
    ]  # fmt: skip


# ---- A process of its own ----------------------------------------------------------------


def test_check_does_not_wait_for_the_printing_libraries(desk: Desk) -> None:
    path = desk.write("a.lesson", WARNED)
    code = (
        "import sys; from formsheet.cli import main; status = main(sys.argv[1:]);"
        "heavy = {'weasyprint', 'jinja2', 'fontTools'} & set(sys.modules);"
        "print('HEAVY', sorted(heavy), 'lark' in sys.modules, status)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "check", path], capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines()[-1] == "HEAVY [] True 0"


def test_module_run_by_name(desk: Desk) -> None:
    path = desk.write("a.lesson", BROKEN)
    done = subprocess.run(
        [sys.executable, "-m", "formsheet", "check", path], capture_output=True, text=True
    )
    assert (done.returncode, done.stderr) == (1, "")


def test_data_written_piece_by_piece_is_as_written_whole(desk: Desk) -> None:
    """And lines of a lesson that stand in it are not indented with it."""
    for name in ("a.lesson", "b.lesson"):
        desk.write(name, WARNED)
    data = desk.data("check", "--json", str(desk.path))
    assert desk.out == json.dumps(data, indent=2) + "\n"


def test_check_tells_each_file_before_it_reads_the_next(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str] = []
    for name in ("a.lesson", "b.lesson"):
        desk.write(name, GOOD)

    def watched(path: Path, name: str) -> tuple[Source | None, list[Problem]]:
        seen.append(desk.capsys.readouterr().out)
        return read_source(path, name)

    monkeypatch.setattr("formsheet.stages.read_source", watched)
    desk.run("check", str(desk.path))
    assert (seen[0], "a.lesson" in seen[1], "b.lesson" in desk.out) == ("", True, True)


def test_a_bug_is_one_sentence_and_a_file(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A teacher never sees a traceback; the file holds it."""

    def broken(words: object) -> int:
        raise KeyError("bend-too-deep")

    monkeypatch.setattr("formsheet.commands.command_line._run", broken)
    assert main(["check", "kitchen.lesson"]) == 70
    said = capsys.readouterr().err
    assert said.startswith("formsheet: formsheet itself has failed (KeyError)")
    assert "Traceback" not in said
    details = Path(re.findall(r"send (\S+) to", said)[0])
    assert "KeyError: 'bend-too-deep'" in details.read_text(encoding="utf-8")
    details.unlink()
