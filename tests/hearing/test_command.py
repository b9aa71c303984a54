"""`formsheet hear` and `formsheet click` from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
import soundfile

from formsheet.cli import main
from formsheet.sound.samples import RATE
from tests.hearing.sounded import PORCH, recording
from tests.helpers import examined


@pytest.fixture(scope="module")
def take(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("takes") / "take.wav"
    soundfile.write(path, recording(), RATE)
    return path


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(list(words))
    out, err = capsys.readouterr()
    return status, out, err


def test_a_lick(take: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "hear", str(take), "--harp", "A", "--lick", "porch")
    assert status == 0
    assert out.startswith("harp      A\nposition  2nd\nmeter     4/4\n\nlick porch on I\n")
    music = [line.split("#")[0] for line in out.splitlines()[5:]]
    marks = [mark for mark in " ".join(music).split() if mark[0].isdigit()]
    assert marks == [tab for tab, _, _ in PORCH]
    lines = err.splitlines()
    assert lines[0] == "A harp, 2nd position, key of E; 8 notes"
    assert lines[1] == "tuned to A = 440"
    assert lines[2] == "a count-in of 1 bar, then 96 beats a minute"
    assert lines[3] == "feel straight, as heard"


def test_a_lesson_that_is_in_order(take: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "hear", str(take), "--harp", "A", "--lesson")
    assert examined(out).in_order
    assert "tempo     96" in out


def test_without_a_harp(take: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "hear", str(take))
    assert status == 0
    assert out.startswith("harp      A\nposition  2nd\n")
    assert "harps that can play it:" in err
    first = next(line for line in err.splitlines() if line.startswith("1. "))
    assert first.split()[:3] == ["1.", "A", "2nd"]


def test_doubts_are_comments_at_their_notes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "take.wav"
    notes = [("2d", 0.0, 1.0), ("4b", 1.0, 1.0), ("3b", 2.0, 1.0), ("4b", 3.0, 1.0)]
    soundfile.write(path, recording(notes), RATE)
    _, out, _ = run(capsys, "hear", str(path), "--harp", "A", "--tempo", "96")
    assert "3b # 3b: the same pitch is 2d" in " ".join(out.split())


def test_into_a_file(take: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "porch.licks"
    status, out, err = run(capsys, "hear", str(take), "--harp", "A", "--out", str(path))
    assert (status, out) == (0, "")
    assert f"wrote {path}" in err
    assert path.read_text(encoding="utf-8").count("lick take on I") == 1
    assert run(capsys, "hear", str(take), "--harp", "A", "--out", str(path))[0] == 2


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["nowhere.wav"], "file not found: nowhere.wav"),
        (["take.wav", "--tempo", "7"], "20 to 300"),
        (["take.wav", "--lick", "two words"], "cannot be the name of a lick"),
        (["take.wav", "--position", "13th"], "13th"),
    ],
)
def test_refusals(words: list[str], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "hear", *words)
    assert (status, out) == (2, "")
    assert says in err


def test_a_click_and_its_own_recording(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "click.wav"
    words = ("click", "--tempo", "96", "--bars", "2", "--meter", "3/4", "--out", str(path))
    assert run(capsys, *words)[0] == 0
    info = soundfile.info(path)
    assert info.duration == pytest.approx(0.25 + 6 * 60 / 96 + 0.5, abs=0.15)
    assert run(capsys, *words)[0] == 2  # it exists already
    status, _, err = run(capsys, "hear", str(path), "--harp", "A")
    assert status == 2
    assert "no note" in err


@pytest.mark.parametrize("words", [[], ["--tempo", "96", "--bars", "0"], ["--tempo", "301"]])
def test_clicks_that_cannot_be(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, "click", *words)[0] == 2
