"""`formsheet retab` from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.lesson.shelves import Shelves
from formsheet.stages import examine_file
from tests.helpers import examined, over, told
from tests.lessons import LESSONS

LESSON = str(LESSONS / "back-step-shuffle.lesson")
SHELF = str(LESSONS / "shelf" / "turnarounds.licks")
NATURAL = over("I", "q 2d 3d 4d 2d")


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(words)
    out, err = capsys.readouterr()
    return status, out, err


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    path = tmp_path / "a.lesson"
    path.write_text(NATURAL, encoding="utf-8")
    return path


def test_a_lesson_that_can_be_played(capsys: pytest.CaptureFixture[str], lesson: Path) -> None:
    status, out, err = run(capsys, "retab", str(lesson), "--position", "1st")
    assert status == 0
    assert told(examined(out).problems) == "no problems"
    assert "q 4b 5b 6b 4b" in out
    assert err.splitlines() == [
        "G harp, 1st position, key of G",
        "the key stays G; everything sounds where it was",
    ]


def test_a_lesson_that_cannot(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "retab", LESSON, "--position", "1st")
    assert status == 1
    assert "not on this harp: 6d for F5" in out
    assert (
        "gate, bar 1, beat 3: F5 is not on this harp; 6d (E5) replaces it; "
        "with --overbends it is 6ob; an octave lower it would be 3d'"
    ) in err
    assert (
        "a tip of home: the holes have changed (5 draw is now 6d); read it again: Up the stairs"
    ) in err


def test_overbends(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "retab", LESSON, "--position", "1st", "--overbends")
    assert status == 0
    assert "6ob" in out


def test_chords_that_change_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    _, _, err = run(capsys, "retab", LESSON, "--position", "3rd")
    assert (
        "chug, bar 1, beat 1: the chord D4 G4 B4 becomes 14d, some of it, the top note lost"
    ) in err


def test_a_new_key_is_told(capsys: pytest.CaptureFixture[str], lesson: Path) -> None:
    _, out, err = run(capsys, "retab", str(lesson), "--harp", "Bb", "--position", "2nd")
    assert "q 2d 3d 4d 2d" in out
    assert "the key goes from G to F: everything is a second down" in err


def test_the_octave_that_is_asked_for(capsys: pytest.CaptureFixture[str], lesson: Path) -> None:
    _, out, err = run(capsys, "retab", str(lesson), "--position", "2", "--octave", "1")
    assert "q 6b 7d 8d 6b" in out
    assert "everything sounds an octave higher" in err


def test_licks_lead_into_each_other(capsys: pytest.CaptureFixture[str]) -> None:
    """Alone the bell is rung on 2 draw; after blown licks on 3 blow."""
    tram = str(LESSONS / "last-tram-but-one.lesson")
    _, whole, _ = run(capsys, "retab", tram, "--position", "1st")
    _, alone, _ = run(capsys, "retab", tram, "bell", "--position", "1st")
    assert ["pickup e 3b 3d''" in text for text in (whole, alone)] == [True, False]


def test_tips_of_single_licks_are_marked_too(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, err = run(capsys, "retab", LESSON, "porch", "--position", "3rd")
    again = "the holes have changed (2 draw is now 1d)"
    tip = "Let the 2 draw ring; it is home. If it chokes, relax the jaw."
    assert f"tip {tip}  # read again: {again}" in out
    assert f"a tip of porch: {again}; read it again: {tip}" in err


def test_single_licks_are_a_shelf(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "new.licks"
    words = ("retab", LESSON, "porch", "creek", "--position", "3rd", "--out", str(path))
    status, out, err = run(capsys, *words)
    assert (status, out) == (0, "")
    assert f"wrote {path}" in err
    found = examine_file(path, path.name, Shelves(tmp_path))
    assert found.shelf
    assert told(found.problems) == "no problems"
    assert list(found.shelf.licks) == ["porch", "creek"]
    assert (found.shelf.facts.position, found.shelf.facts.harp.name) == (3, "F")


def test_a_whole_shelf(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, err = run(capsys, "retab", SHELF, "--position", "3rd")
    assert "position  3rd" in out
    assert "turnaround low-lane" in out
    assert err.startswith("F harp, 3rd position, key of G")


def test_nothing_is_written_over(capsys: pytest.CaptureFixture[str], lesson: Path) -> None:
    words = ("retab", str(lesson), "--position", "1st", "--out", str(lesson))
    status, _, err = run(capsys, *words)
    assert (status, lesson.read_text(encoding="utf-8")) == (2, NATURAL)
    assert "exists already; overwrite it with --force" in err
    assert run(capsys, *words, "--force")[0] == 0
    assert "harp      G" in lesson.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ((LESSON,), "give --position"),
        ((LESSON, "--position", "13th"), "`13th` is not a position"),
        ((LESSON, "--position", "1st", "--octave", "9"), '"9" is not a number of octaves'),
        ((LESSON, "porhc", "--position", "1st"), "did you mean porch?"),
        ((str(LESSONS), "--position", "1st"), "is a folder; name one file"),
        (("no.lesson", "--position", "1st"), "file or folder not found: no.lesson"),
    ],
)
def test_usage(capsys: pytest.CaptureFixture[str], words: tuple[str, ...], message: str) -> None:
    status, _, err = run(capsys, "retab", *words)
    assert (status, message in err) == (2, True), err


def test_a_lesson_with_errors(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a.lesson"
    path.write_text(over("I", "w 2d''''"), encoding="utf-8")
    status, out, _ = run(capsys, "retab", str(path), "--position", "1st")
    assert (status, "bend-too-deep" in out) == (1, True)
