"""The commands that answer while one writes: joins, fit, chords."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.report.paint import painted_problem
from tests.lessons import LESSONS

LESSON = str(LESSONS / "back-step-shuffle.lesson")
SHELF = str(LESSONS / "shelf" / "turnarounds.licks")


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(list(words)) == 0
    return capsys.readouterr().out


def test_joins_end_with_the_plan(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys, "joins", LESSON).splitlines()
    assert "Start at 60 beats a minute, then take 69, 76, 84 and 92." in lines
    assert (
        lines[-1]
        == "5. In the rest on beat 4 of bar 10 breathe out: the chest is fullest in bar 12."
    )


def test_joins_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    data = json.loads(printed(capsys, "joins", LESSON, "--json"))
    assert data["ladder"][0] == data["start"] == 60
    assert [move["rank"] for move in data["moves"]] == list(range(1, len(data["moves"]) + 1))


def test_show_says_where_the_hardest_move_is_too_hard_for_a_metronome(
    capsys: pytest.CaptureFixture[str],
) -> None:
    lines = printed(capsys, "show", str(LESSONS / "gantry-crane.lesson")).splitlines()
    assert lines[2] == (
        "The hardest move (inside Spire, bar 3: `9d` to `8b'`) is easy only under 40 beats a "
        "minute: begin it without a metronome."
    )
    assert printed(capsys, "show", LESSON).splitlines()[2] == "chorus 1"


def test_fit_of_one_lick(capsys: pytest.CaptureFixture[str]) -> None:
    out = printed(capsys, "fit", LESSON, "chug")
    assert out.startswith("Boots on the step (chug), written on I; 12-bar standard")
    assert "fits well" in out.splitlines()[2]


def test_fit_takes_licks_after_options(capsys: pytest.CaptureFixture[str]) -> None:
    out = printed(capsys, "fit", SHELF, "--form", "8-bar ending I", "home")
    assert out.startswith("The way home (home), written on I | V; 8-bar ending I")
    assert "low-lane" not in out


def test_fit_over_all_forms(capsys: pytest.CaptureFixture[str]) -> None:
    data = json.loads(printed(capsys, "fit", SHELF, "--form", "all", "--json"))
    assert {each["lick"] for each in data} == {"home", "low-lane"}
    assert "12-bar minor" in {each["form"] for each in data}


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("fit", LESSON, "porhc"), 'unknown lick "porhc"; did you mean porch?'),
        (("fit", SHELF), "a shelf has no form: give one with --form"),
        (("fit", LESSON, "--form", "9-bar"), "there is no form called `9-bar`"),
        (("chords", "--harp", "H"), "no harp is stamped `H`"),
        (("chords", "--position", "13th"), "`13th` is not a position"),
        (("chords", "--tuning", "natral minor"), "did you mean `natural minor`?"),
        (("joins", SHELF), "does not end in .lesson"),
        (("joins", str(LESSONS)), "is a folder; name one file"),
    ],
)
def test_usage(capsys: pytest.CaptureFixture[str], words: tuple[str, ...], message: str) -> None:
    assert main(list(words)) == 2
    assert message in capsys.readouterr().err


def test_chords_of_a_lesson(capsys: pytest.CaptureFixture[str]) -> None:
    out = printed(capsys, "chords", LESSON)
    assert "C harp, 2nd position, key of G" in out
    assert "  roots       1d, 4d, 8d" in out


def test_options_take_the_place_of_what_the_lesson_says(
    capsys: pytest.CaptureFixture[str],
) -> None:
    out = printed(capsys, "chords", LESSON, "--harp", "bb", "--position", "3")
    assert "Bb harp, 3rd position, key of C" in out


def test_chords_of_an_unfinished_lesson(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "begun.lesson"
    path.write_text("title Begun\nharp C\nform 8-bar\ntempo 80\n", encoding="utf-8")
    assert "key of G" in printed(capsys, "chords", str(path))


def test_chords_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    data = json.loads(printed(capsys, "chords", LESSON, "--json"))
    assert [chord["name"] for chord in data] == ["G7", "C7", "D7"]
    assert data[2]["only_bent"] == ["3"]
    assert {"tab": "123d", "sounds": "G"} in data[0]["blocks"]


def test_colour_changes_no_word() -> None:
    text = "a.lesson:1:2: error: no [slug]\n    1 | x\n      | ^^ first\n      = do"
    painted = painted_problem(text)
    for code in ("\033[1;31m", "\033[1m", "\033[1;35m", "\033[0m"):
        assert code in painted
        painted = painted.replace(code, "")
    assert painted == text


# ---- Builds for other harps, and of parts -------------------------------------------------


def test_build_for_several_harps(tmp_path: Path) -> None:
    out = str(tmp_path)
    assert main(["build", LESSON, "--only", "sheet", "--out", out, "--harp", "A, low f,F#"]) == 0
    assert sorted(path.name for path in tmp_path.glob("*/sheet.pdf")) == ["sheet.pdf"] * 3
    assert {path.name for path in tmp_path.iterdir()} == {
        "back-step-shuffle-harp-A",
        "back-step-shuffle-harp-low-F",
        "back-step-shuffle-harp-F-sharp",
    }


@pytest.mark.parametrize("option", [["--only", "sheets"], ["--harp", "H"], ["--harp", "C A Bb"]])
def test_build_of_what_is_not_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], option: list[str]
) -> None:
    assert main(["build", LESSON, "--out", str(tmp_path), *option]) == 2
    assert capsys.readouterr().err.startswith("formsheet: ")
    assert list(tmp_path.iterdir()) == []


def test_check_and_show_on_another_harp(capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("check", "show"):
        assert "Bb harp, 2nd position, key of F" in printed(capsys, command, LESSON, "--harp", "bb")


def test_fit_names_what_rubs_in_passing(capsys: pytest.CaptureFixture[str]) -> None:
    """The major third of the turnaround rubs in a minor blues, though it does not land."""
    lines = printed(capsys, "fit", SHELF, "home", "--form", "12-bar minor").splitlines()
    assert "fits well    no" in lines[2]
    assert "3d is the 3, in passing" in lines[2]
