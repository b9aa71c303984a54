"""Each command that the README shows is run, in its order, in a folder with the README's files.

Not run: the lines that set the machine up, and `watch`, which ends by Ctrl-C only.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.test_readme import README, ROOT

_FENCED = re.compile(r"^```(\w*)\n(.*?)^```", re.MULTILINE | re.DOTALL)
_INLINE = re.compile(r"`(formsheet [^`]*)`")

#: Where the README's own lesson and shelf stand, and under which names.
_FILES = {"lesson": "kitchen.lesson", "licks": "turnarounds.licks"}

#: Melodies and a recording that the README takes as given: what its own `build` has made before.
_MELODIES = {
    "melody.mid": "handouts/kitchen/clips/tune-full.mid",
    "melody.musicxml": "handouts/kitchen/tune.musicxml",
    "take.wav": "handouts/kitchen/clips/lick-porch-full.mp3",
}

#: Old tab that the README takes as given.
_OLD_TAB = ("old.txt", "-2 -3' 4 -4' 4 -3' -2\nrain on the gate\n")

#: How the shown outputs begin, and what prints them.
_SHOWN = {
    "Front porch (porch), written on I": "formsheet fit kitchen.lesson porch",
    "     where ": "formsheet joins kitchen.lesson",
    "# 1. IV7 (C7), as it is": "formsheet recast kitchen.lesson porch --on IV",
}

#: Blocks without a kind that no command prints: the sheet, an error (tests/test_readme.py holds
#: it), a form and a tuning of the teacher's own.
_NOT_PRINTED = (
    " KITCHEN SHUFFLE",
    "kitchen.lesson:13:6: error",
    "I7  G7\n",
    'form "Late tram"',
    "tuning ",
    "lick porch on I\n",
)


class Ran(NamedTuple):
    """What a command came to."""

    status: int
    out: str
    err: str
    files: frozenset[str]  # in its folder, when it had ended


def _steps() -> Iterator[tuple[str, str]]:
    """What the README says to do, in its order: ("run", a command) or (a file, its text)."""
    at = 0
    for block in _FENCED.finditer(README):
        yield from (("run", found) for found in _INLINE.findall(README[at : block.start()]))
        kind, text = block.groups()
        if kind in _FILES:
            yield _FILES[kind], text
        for line in text.splitlines() if kind == "sh" else ():
            if line.startswith("formsheet "):
                yield "run", _without_comment(line)
        at = block.end()
    yield from (("run", found) for found in _INLINE.findall(README[at:]))


def _without_comment(line: str) -> str:
    return re.split(r"\s+#\s", line)[0]


def _ends_by_itself(command: str) -> bool:
    return not command.startswith("formsheet watch")


STEPS = list(_steps())
COMMANDS = list(
    dict.fromkeys(text for what, text in STEPS if what == "run" and _ends_by_itself(text))
)


def _run(command: str, folder: Path) -> Ran:
    words = shlex.split(command.replace("COMMAND", "check"))[1:]
    done = subprocess.run(
        [sys.executable, "-m", "formsheet", *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        timeout=300,
        check=False,
    )
    files = frozenset(path.name for path in folder.iterdir())
    return Ran(done.returncode, done.stdout, done.stderr, files)


@pytest.fixture(scope="module")
def ran(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Ran]:
    """Every command with what it came to, the first time that the README shows it."""
    folder = tmp_path_factory.mktemp("readme")
    shutil.copytree(ROOT / "lessons", folder / "lessons")
    name, tab = _OLD_TAB
    (folder / name).write_text(tab, encoding="utf-8")
    found: dict[str, Ran] = {}
    for what, text in STEPS:
        if what != "run":
            (folder / what).write_text(text, encoding="utf-8")
        elif _ends_by_itself(text) and text not in found:
            for name, made in _MELODIES.items():
                if name in text:
                    shutil.copyfile(folder / made, folder / name)
            found[text] = _run(text, folder)
    return found


def test_the_commands_were_seen() -> None:
    names = {command.split()[1] for command in COMMANDS}
    assert names >= {"new", "check", "show", "build", "fit", "joins", "chords", "recast", "retab",
                     "tab", "uses", "tidy", "reference", "completion"}  # fmt: skip
    lines = re.findall(r"^formsheet (?!watch).*$", README, re.MULTILINE)
    assert {_without_comment(line) for line in lines} <= set(COMMANDS)


@pytest.mark.parametrize("command", COMMANDS)
def test_it_ends_well(ran: dict[str, Ran], command: str) -> None:
    status, out, err, files = ran[command]
    assert status == 0, err or out
    assert "Traceback" not in err
    assert out or err or command.startswith("formsheet tidy"), "it says nothing"
    words = command.split()
    assert "--out" not in words or words[words.index("--out") + 1] in files


def test_check_finds_nothing_in_the_readmes_lesson(ran: dict[str, Ran]) -> None:
    assert not re.search(r"error|warning|remark", ran["formsheet check kitchen.lesson"].out)


def _plain_blocks() -> list[str]:
    return [text for kind, text in _FENCED.findall(README) if not kind]


def test_every_block_is_one_that_is_held() -> None:
    for text in _plain_blocks():
        assert text.startswith((*_SHOWN, *_NOT_PRINTED)), text


@pytest.mark.parametrize("start", _SHOWN)
def test_what_is_shown_is_what_is_printed(ran: dict[str, Ran], start: str) -> None:
    """Line by line; `...` stands for lines that are left out."""
    (text,) = [text for text in _plain_blocks() if text.startswith(start)]
    printed = ran[_SHOWN[start]].out
    at = 0
    for part in text.split("...\n"):
        found = printed.find(part, at)
        assert found >= 0, f"not printed:\n{part}\nbut:\n{printed}"
        at = found + len(part)
