"""`formsheet uses` on the demo lessons."""

from __future__ import annotations

import json

import pytest

from formsheet.cli import main
from tests.lessons import LESSONS

FOLDER = str(LESSONS)


def printed(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> str:
    assert main(["uses", *words]) == status
    out, err = capsys.readouterr()
    return out + err


def test_shelf_of_the_demo_lessons(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys, FOLDER).splitlines()
    assert lines[0].startswith(f"{FOLDER}/shelf/turnarounds.licks, used by ")
    assert lines[2].split() == [
        "home",
        "I",
        "|",
        "V",
        f"{FOLDER}/back-step-shuffle.lesson",
        "11,",
        "12",
    ]


@pytest.mark.parametrize("name", ["home", "turnarounds:home", "turnarounds.licks:home"])
def test_what_changes_with_a_lick(capsys: pytest.CaptureFixture[str], name: str) -> None:
    out = printed(capsys, FOLDER, "--of", name)
    assert out.startswith("If the lick home of ")
    assert " is edited, 2 lessons change:\n" in out


def test_name_that_is_not_there(capsys: pytest.CaptureFixture[str]) -> None:
    out = printed(capsys, FOLDER, "--of", "turnaruonds", status=2)
    assert "lick, rhythm or file not found: turnaruonds; did you mean turnarounds?" in out


def test_data(capsys: pytest.CaptureFixture[str]) -> None:
    data = json.loads(printed(capsys, FOLDER, "--json"))
    assert [len(data["shelves"]), data["broken"]] == [1, []]
    assert all(lick["played"] for lick in data["licks"])
