"""Lessons and shelves opened for their licks by fit, recast and retab."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.commands.opened import open_licks, over_form
from formsheet.music.form import FORMS
from tests.helpers import over

MINOR = "position 2nd\nlick low on i\n  w 2d\nlick far on V\n  w 1d\n"


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(words)
    return status, *capsys.readouterr()


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    path = tmp_path / "a.licks"
    path.write_text("position 2nd\n", encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "words",
    [
        ("fit", "--form", "all"),
        ("fit", "--form", "8-bar", "--json"),
        ("fit", "porch", "--form", "8-bar"),
        ("recast", "porch", "--on", "IV"),
        ("retab", "porch", "--position", "3rd"),
    ],
)
def test_an_empty_shelf_has_no_lick_to_work_on(
    capsys: pytest.CaptureFixture[str], shelf: Path, words: tuple[str, ...]
) -> None:
    command, *rest = words
    status, out, err = run(capsys, command, str(shelf), *rest)
    assert (status, out) == (2, "")
    assert f"{shelf} has no licks" in err


def test_an_empty_shelf_goes_to_another_position(
    capsys: pytest.CaptureFixture[str], shelf: Path
) -> None:
    status, out, _ = run(capsys, "retab", str(shelf), "--position", "3rd")
    assert (status, out.split()) == (0, ["position", "3rd"])


def test_a_file_that_cannot_be_read_is_told(
    capsys: pytest.CaptureFixture[str], shelf: Path
) -> None:
    shelf.write_bytes(b"title \xff\n")
    for words in (
        ("fit", "--form", "8-bar"),
        ("recast", "a", "--on", "I"),
        ("retab", "--harp", "A"),
    ):
        status, out, _ = run(capsys, words[0], str(shelf), *words[1:])
        assert status == 1
        assert "[file-not-utf8]" in out


def test_a_shelf_with_a_lick_on_a_minor_I_is_in_minor(
    capsys: pytest.CaptureFixture[str], shelf: Path
) -> None:
    """A C harp in 2nd position gives G, or G minor. Common practice, no source."""
    shelf.write_text(MINOR, encoding="utf-8")
    lesson = open_licks(str(shelf)).lesson
    assert lesson
    assert lesson.key.name == "G minor"
    assert over_form(lesson, FORMS["8-bar"]).key.name == "G"  # a form says it for certain
    status, _, err = run(capsys, "retab", str(shelf), "--position", "3rd")
    assert status == 0
    assert err.startswith("F harp, 3rd position, key of G minor\nthe key stays G minor; ")
    shelf.write_text(MINOR.replace("on i\n", "on I\n"), encoding="utf-8")
    assert open_licks(str(shelf)).licks.keys() == {"low", "far"}
    _, _, err = run(capsys, "retab", str(shelf), "--position", "3rd")
    assert "3rd position, key of G\n" in err


@pytest.mark.parametrize("name", ["a.licks", "a.lesson"])
@pytest.mark.parametrize(
    "words", [("fit", "--form", "8-bar"), ("recast", "{}", "--on", "I"), ("retab", "--harp", "A")]
)
def test_the_file_is_read_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, words: tuple[str, ...]
) -> None:
    path = tmp_path / name
    lesson = name.endswith("lesson")
    path.write_text(over("I", "w 2d") if lesson else MINOR, encoding="utf-8")
    opened: list[Path] = []
    open_path = Path.open

    def noted(self: Path, *rest: object, **more: object) -> object:
        opened.append(self)
        return open_path(self, *rest, **more)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", noted)
    command, *rest = (word.format("run" if lesson else "low") for word in words)
    assert main([command, str(path), *rest]) == 0
    assert [each.name for each in opened].count(name) == 1
