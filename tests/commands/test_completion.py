"""Completion, asked of real shells; those that are not there are skipped."""

from __future__ import annotations

import os
import pty
import re
import select
import shutil
import signal
import subprocess
from functools import cache
from pathlib import Path

import pytest

from formsheet.commands.completion import SHELLS
from formsheet.commands.completion_scripts import script
from formsheet.commands.declared import HELP
from formsheet.commands.parser import COMMANDS, all_declared, declared
from formsheet.music.form import FORMS
from formsheet.music.harp import HARP_KEYS
from formsheet.music.key import POSITIONS
from formsheet.music.tunings import TUNINGS

_ASK = """
source {script}
COMP_WORDS=({words}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1))
_formsheet formsheet "${{COMP_WORDS[COMP_CWORD]}}" "${{COMP_WORDS[COMP_CWORD-1]}}"
printf '%s\\n' "${{COMPREPLY[@]}}"
"""


@cache
def scripted(shell: str) -> str:
    return script(all_declared(), shell)


@pytest.fixture(scope="module")
def bash_script(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("shell") / "formsheet.bash"
    path.write_text(scripted("bash"), encoding="utf-8")
    return path


def offered(path: Path, *words: str, folder: Path | None = None) -> list[str]:
    """What bash offers for the last word, as it stands on the command line."""
    quoted = " ".join("'{}'".format(word.replace("'", "'\\''")) for word in ("formsheet", *words))
    asked = _ASK.format(script=path, words=quoted)
    answer = subprocess.run(
        ["bash", "--norc", "-c", asked], capture_output=True, text=True, check=True, cwd=folder
    )
    assert answer.stderr == ""
    return answer.stdout.splitlines()


def test_bash_offers_every_command(bash_script: Path) -> None:
    assert offered(bash_script, "") == list(COMMANDS)
    assert offered(bash_script, "ch") == [name for name in COMMANDS if name.startswith("ch")]


@pytest.mark.parametrize("command", COMMANDS)
def test_bash_offers_every_option(bash_script: Path, command: str) -> None:
    options = (HELP, *declared(command).options)
    names = [name for option in options for name in option.names]
    assert offered(bash_script, command, "-") == names


@pytest.mark.parametrize(
    ("option", "known"),
    [("--form", FORMS), ("--tuning", TUNINGS), ("--harp", HARP_KEYS), ("--position", POSITIONS)],
)
def test_bash_offers_names_after_options(
    bash_script: Path, option: str, known: tuple[str, ...]
) -> None:
    found = [word.replace("\\", "") for word in offered(bash_script, "chords", option, "")]
    assert found == list(known)


def test_bash_keeps_a_name_of_several_words_one_word(bash_script: Path) -> None:
    assert offered(bash_script, "chords", "--form", "12-bar\\ q") == ["12-bar\\ quick-change"]
    assert offered(bash_script, "fit", "a.lesson", "--form", '"12-bar q') == ["12-bar quick-change"]


def test_bash_offers_files(bash_script: Path, tmp_path: Path) -> None:
    (tmp_path / "kitchen.lesson").touch()
    (tmp_path / "shelf").mkdir()
    assert sorted(offered(bash_script, "check", "", folder=tmp_path)) == ["kitchen.lesson", "shelf"]
    assert offered(bash_script, "watch", "", folder=tmp_path) == ["shelf"]


@pytest.mark.parametrize("shell", SHELLS)
def test_the_script_of_a_shell_is_one_it_can_read(shell: str, tmp_path: Path) -> None:
    found = shutil.which(shell)
    if not found:
        pytest.skip(f"{shell} is not on this machine")
    path = tmp_path / f"formsheet.{shell}"
    path.write_text(scripted(shell), encoding="utf-8")
    subprocess.run([found, "-n", path], check=True, capture_output=True)


def test_fish_offers_names(tmp_path: Path) -> None:
    if not shutil.which("fish"):
        pytest.skip("fish is not on this machine")
    path = tmp_path / "formsheet.fish"
    path.write_text(scripted("fish"), encoding="utf-8")
    asked = f"source {path}; complete -C 'formsheet chords --tuning n'; complete -C 'formsheet jo'"
    answer = subprocess.run(["fish", "-N", "-c", asked], capture_output=True, text=True, check=True)
    words = [line.split("\t")[0] for line in answer.stdout.splitlines()]
    assert words == ["natural minor", "joins"]


# ---- Asked at a terminal -------------------------------------------------------------------

_STARTED = {
    "bash": (["bash", "--norc", "--noprofile", "-i"], "PS1='> '; source {script}\n"),
    "zsh": (
        ["zsh", "-f", "-i"],
        "PS1='> '; unsetopt beep; autoload -Uz compinit; compinit -D -u; source {script}\n",
    ),
}


def shown(shell: str, path: Path, line: str, whole: str, folder: Path) -> str:
    """What a terminal shows, until it is `whole`, when the Tab key is pressed behind a line."""
    command, begin = _STARTED[shell]
    pid, terminal = pty.fork()
    if pid == 0:
        os.chdir(folder)
        os.execvpe(command[0], command, {"PATH": os.environ["PATH"], "TERM": "dumb"})
    try:
        os.write(terminal, begin.format(script=path).encode() + b"echo re''ady\n")
        _read_until(terminal, "ready")
        os.write(terminal, f"{line}\t".encode())
        return _read_until(terminal, whole)
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(terminal)


def _read_until(terminal: int, words: str) -> str:
    """What the terminal shows until it shows these words, or nothing for ten seconds."""
    said = ""
    while words not in said and select.select([terminal], [], [], 10)[0]:
        said += os.read(terminal, 65536).decode(errors="replace")
        said = re.sub(r"\x1b\[[?0-9;]*[A-Za-z]|\a", "", said)
    return said


@pytest.mark.parametrize("shell", _STARTED)
@pytest.mark.parametrize(
    ("line", "whole"),
    [
        ("formsheet jo", "formsheet joins "),
        ("formsheet chords --form 12-bar\\ q", "formsheet chords --form 12-bar\\ quick-change "),
        ("formsheet check k", "formsheet check kitchen.lesson "),
        ("formsheet watch s", "formsheet watch shelf/"),
        ("formsheet build --rem", "formsheet build --remove-stale "),
    ],
)
def test_a_line_is_completed(tmp_path: Path, shell: str, line: str, whole: str) -> None:
    if not shutil.which(shell):
        pytest.skip(f"{shell} is not on this machine")
    (tmp_path / "kitchen.lesson").touch()
    (tmp_path / "shelf").mkdir()
    path = tmp_path / f"formsheet.{shell}"
    path.write_text(scripted(shell), encoding="utf-8")
    assert whole in shown(shell, path, line, whole, tmp_path)
