"""The output of a command: closed early, full, closed, or in an encoding that lacks signs.

Each command runs in a process of its own with an empty environment: PYTHONUNBUFFERED, say, would
hide what a buffer does at exit.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from formsheet.commands.files import CLOSED_EARLY
from tests.helpers import lesson_text, own_form

ROOT = Path(__file__).parents[2]
LONG = lesson_text(
    "lick run on I\n q 2d 3d 4d 5d\nplay x50\n bars 1-4 run", form=own_form("I | I | I | I")
)
FULL = Path("/dev/full")
NO_ROOM = "formsheet: the output cannot be written: No space left on device\n"

#: Commands that print more than a buffer or a pipe holds, and commands that print a few lines.
COMMANDS = [
    ("check", "lessons"),
    ("check", "lessons", "--json"),
    ("show", "lessons/a.lesson"),
    ("show", "lessons/a.lesson", "--json"),
    ("show", "--schema"),
    ("uses", "lessons"),
    ("tidy", "lessons", "--diff"),
    ("chords", "lessons/a.lesson"),
    ("reference",),
    ("completion", "bash"),
    ("help",),
    ("help", "build"),
    ("--help",),
    ("build", "--help"),
    ("--version",),
]


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    folder = tmp_path / "lessons"
    folder.mkdir()
    for name in "ab":
        (folder / f"{name}.lesson").write_text(LONG, encoding="utf-8")
    return tmp_path


def started(
    desk: Path,
    words: tuple[str, ...],
    stdout: int,
    stderr: int = subprocess.PIPE,
    prepare: Callable[[], None] | None = None,
    **environment: str,
) -> tuple[int, str]:
    """The exit status of a command, and what it printed on standard error."""
    done = subprocess.run(
        [sys.executable, "-c", _WITH_ROOT, *words],
        cwd=desk, env=environment, stdout=stdout, stderr=stderr, preexec_fn=prepare, text=True,
        encoding="utf-8", timeout=60,
    )  # fmt: skip
    return done.returncode, done.stderr


#: PYTHONPATH would be a setting of the environment.
_WITH_ROOT = (
    f"import sys; sys.path.insert(0, {str(ROOT)!r}); sys.argv[0] = 'formsheet';"
    "from formsheet.cli import main; sys.exit(main())"
)


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_a_reader_that_stops_early_ends_a_command_quietly(
    desk: Path, words: tuple[str, ...]
) -> None:
    """The pipe has no reader from the start, so that the first write to it fails."""
    reader, writer = os.pipe()
    os.close(reader)
    try:
        assert started(desk, words, stdout=writer) == (CLOSED_EARLY, "")
    finally:
        os.close(writer)


def test_a_reader_that_stops_after_a_few_bytes(desk: Path) -> None:
    """As with `| head -c 10`, of more than a pipe holds (pipe(7): 65,536 bytes)."""
    with subprocess.Popen(
        [sys.executable, "-c", _WITH_ROOT, "show", "lessons/a.lesson", "--json"],
        cwd=desk, env={}, stdout=subprocess.PIPE, stderr=subprocess.PIPE, bufsize=0,
    ) as process:  # fmt: skip
        assert process.stdout
        assert process.stderr
        assert len(process.stdout.read(10)) == 10
        process.stdout.close()
        assert (process.stderr.read(), process.wait(60)) == (b"", CLOSED_EARLY)


def test_the_status_of_a_closed_output_is_that_of_a_shell() -> None:
    """128 and the number of SIGPIPE (POSIX, 2.8.2 Exit Status for Commands; `kill -l PIPE`)."""
    assert CLOSED_EARLY == 128 + 13


@pytest.mark.skipif(not FULL.exists(), reason="a device that is always full is Linux's own")
@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_a_full_disk_under_the_output_is_one_sentence(desk: Path, words: tuple[str, ...]) -> None:
    with FULL.open("w") as full:
        assert started(desk, words, stdout=full.fileno()) == (2, NO_ROOM)


@pytest.mark.skipif(not FULL.exists(), reason="a device that is always full is Linux's own")
@pytest.mark.parametrize("words", [("check", "lessons"), ("chek",), ("check", "nothing"), ()])
def test_a_full_disk_under_the_messages_leaves_the_status(
    desk: Path, words: tuple[str, ...]
) -> None:
    with FULL.open("w") as full:
        assert started(desk, words, stdout=full.fileno(), stderr=full.fileno())[0] == 2


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_a_closed_output_is_as_if_nobody_reads(desk: Path, words: tuple[str, ...]) -> None:
    assert started(desk, words, subprocess.DEVNULL, prepare=lambda: os.close(1)) == (0, "")


def test_a_closed_input_answers_no_questions(desk: Path) -> None:
    done = started(desk, ("new", "b"), subprocess.DEVNULL, prepare=lambda: os.close(0))
    assert done == (0, "")
    assert (desk / "b.lesson").exists()


def test_what_the_encoding_lacks_is_printed_as_its_number(desk: Path) -> None:
    """In a terminal of Western Europe; as data it reads back as it was."""
    (desk / "c.lesson").write_text(LONG.replace("Test Blues", "Ж für ♭"), encoding="utf-8")
    paths = desk / "printed", desk / "data"
    for path, more in zip(paths, ([], ["--json"]), strict=True):
        with path.open("wb") as file:
            words = ("show", "c.lesson", *more)
            assert started(desk, words, file.fileno(), PYTHONIOENCODING="latin-1") == (0, "")
    printed, data = (path.read_text(encoding="latin-1") for path in paths)
    assert r"\u0416 für \u266d" in printed
    assert json.loads(data)["title"] == "Ж für ♭"


def test_the_statuses_are_in_the_readme() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert f"{CLOSED_EARLY} when the program that reads the output" in " ".join(readme.split())
