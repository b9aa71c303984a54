"""`check` of a folder: the same words from all cores as from one."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.commands import check
from formsheet.engine import cores
from tests.bench.lessons import many

FOLDER, COUNT = "many", 24


@pytest.fixture(scope="module")
def lessons(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = many(tmp_path_factory.mktemp(FOLDER) / "lessons", COUNT)
    wrong = sorted(folder.glob("*.lesson"))[17]
    wrong.write_text(wrong.read_text(encoding="utf-8").replace("lick ", "lik ", 1), "utf-8")
    return folder


@pytest.mark.parametrize("options", [[], ["--quiet"], ["--json"]])
def test_all_cores_say_what_one_says(
    lessons: Path,
    options: list[str],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(check, "_PORTION", 5)
    said = []
    for number in (1, 2):
        monkeypatch.setattr(cores, "cores", lambda number=number: number)
        assert main(["check", str(lessons), *options]) == 1
        said.append(capsys.readouterr().out)
    assert said[0] == said[1]
    assert "lik" in said[0]
    if options == ["--json"]:
        names = [each["file"] for each in json.loads(said[0])["files"]]
        assert len(names) == COUNT + 1  # and the shelf
        assert names == sorted(names)
