"""The help: examples that the command line takes, exit statuses; quiet and verbose."""

from __future__ import annotations

import shlex
from pathlib import Path
from time import sleep

import pytest

from formsheet.cli import main
from formsheet.commands.files import EXITS
from formsheet.commands.parser import COMMANDS, declared
from tests.commands.shells import whole
from tests.helpers import over

GOOD = over("I7 | IV7", "q 2d 3d 4d 5d | q 4b 5b 6b -")
WARNED = over("IV7", "w 3d")
BROKEN = over("I", "w 3x")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_examples_and_statuses(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit):
        main([command, "--help"])
    out = capsys.readouterr().out
    examples = declared(command).examples
    assert 1 <= len(examples) <= 3
    assert all(f"\n  {example}\n" in out for example in examples)
    assert all(f"\n  {status:<4} {words}\n" in out for status, words in EXITS.items())


@pytest.mark.parametrize(
    "example", [example for command in COMMANDS for example in declared(command).examples]
)
def test_examples_are_read(example: str) -> None:
    first, *words = shlex.split(example.split(" > ", maxsplit=1)[0])
    arguments = whole().parse_args(words)
    assert first == "formsheet"
    assert arguments.run.__module__.endswith(f".{words[0]}")


def test_the_help_of_all_tells_the_statuses(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    out = " ".join(capsys.readouterr().out.split())
    assert all(f"{status} {words}" in out for status, words in EXITS.items())


# ---- Quiet and verbose -----------------------------------------------------------------------


def written(folder: Path, text: str) -> str:
    (folder / "a.lesson").write_text(text, encoding="utf-8")
    return str(folder / "a.lesson")


@pytest.mark.parametrize(
    ("text", "status", "slugs"),
    [(GOOD, 0, []), (WARNED, 0, ["[note-clash]"]), (BROKEN, 1, ["[note-breath]"])],
)
def test_check_quiet_tells_what_is_wrong_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, status: int, slugs: list[str]
) -> None:
    assert main(["check", "-q", written(tmp_path, text)]) == status
    out = capsys.readouterr().out
    assert [slug for slug in slugs if slug not in out] == []
    assert "Test Blues" not in out.replace("title", "").split("|")[0]
    assert bool(out) == bool(slugs)


def test_build_quiet_and_verbose(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["build", written(tmp_path, GOOD), "--out", str(tmp_path / "out"), "--only", "sheet"]
    sleep(0.1)  # what was written this very moment counts as in the making
    assert main([*words, "--quiet"]) == 0
    assert capsys.readouterr() == ("", "")
    assert main([*words, "-v"]) == 0
    assert "a.lesson: not changed since made" in capsys.readouterr().err


def test_quiet_and_verbose_do_not_go_together(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["build", "x", "-q", "-v"])
    assert stopped.value.code == 2
    assert "not allowed with" in capsys.readouterr().err
