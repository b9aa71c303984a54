"""What was meant by a command line that fails. `test_first_steps` holds what is printed."""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from formsheet.commands.files import UsageError
from formsheet.commands.parser import COMMANDS, declared, parsed
from formsheet.commands.slips import explained
from tests.lessons import LESSONS

EXAMPLES = [example.split(" > ")[0] for name in COMMANDS for example in declared(name).examples]
TWO_BARS = "lick home on I | V\n  w 2d | w 1d\n"


@pytest.fixture(autouse=True)
def _in_the_folder_of_the_lessons(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(LESSONS.parent)


@pytest.mark.parametrize("example", EXAMPLES)
def test_a_line_that_is_right_is_left_alone(example: str) -> None:
    _, *words = shlex.split(example)
    assert explained(words, "the message") == "the message"


def _typed(text: str) -> list[str]:
    return [line.removeprefix("  ") for line in text.splitlines() if line.startswith("  formsheet")]


@pytest.mark.parametrize(
    ("line", "right"),
    [
        ("make lessons", "build lessons"),
        ("--quiet check lessons", "check --quiet lessons"),
        ("build lessons --paper=Letter", "build lessons --page Letter"),
        ("build lessons –page letter –large", "build lessons --page letter --large"),
        ("fit lessons/kitchen.lesson --form 12-bar quick-change --json",
         'fit lessons/kitchen.lesson --form "12-bar quick-change" --json'),
        ("build lessons --harp low F C", 'build lessons --harp "low F,C"'),
        ("build lessons --harp 'H,Si bémol'", "build lessons --harp B,Bb"),
        ("retab lessons/kitchen.lesson porch --harp low F",
         'retab lessons/kitchen.lesson porch --harp "low F"'),
        ("check lessons --harp low F --quiet", 'check lessons --harp "low F" --quiet'),
        ("check lessons/kitchen.lesson G", "check lessons/kitchen.lesson --harp G"),
        ("retab porch lessons/kitchen.lesson --position second --out x.lesson",
         "retab lessons/kitchen.lesson porch --position 2nd --out x.lesson"),
        ("recast lessons/kitchen.lesson porch --on V IV",
         'recast lessons/kitchen.lesson porch --on "V IV"'),
        ("new kitchen --feel shuffle", "new kitchen --feel swing"),
        ("build lessons --only sheet, clips", "build lessons --only sheet,clips"),
        ("watch --only wav", "watch --only clips --wav"),
        ("bulid --help", "build --help"),
    ],
)  # fmt: skip
def test_the_line_to_type(line: str, right: str) -> None:
    words = shlex.split(line)
    assert _typed(explained(words, "")) == [f"formsheet {right}"]


@pytest.mark.parametrize(
    "line",
    [
        "check gone.lesson",
        "fit lessons/kitchen.lesson porhc",
        "new lessons/kitchen",
        "new cellar --meter 5/4",
        "build lessons --out two words",
        "tab lessons/gone.mid",
        "retab lessons/kitchen.lesson --octave -9",
        "explain zzz",
    ],
)
def test_what_is_not_known_is_not_guessed(line: str) -> None:
    assert _typed(explained(shlex.split(line), "the message")) == []


@settings(max_examples=300, derandomize=True, deadline=None, database=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
@given(
    st.lists(
        st.sampled_from(
            ["lessons", "lessons/kitchen.lesson", "porch", "—large", "-harp", "--harp", "G", "low",
             "F", "--page", "A5", "“a", "b”", "--form", "12-bar", "minor", "--position", "1st",
             "--only", "pdf,mp3", "--", "-", "", "=", "--=", "-5", "--json", "a\0b", "x" * 300,
             "—", "q", "H4", "|", *COMMANDS]
        ),
        max_size=8,
    )
)  # fmt: skip
def test_any_words_give_lines_that_can_be_parsed(words: list[str]) -> None:
    for line in _typed(explained(words, "the message")):
        name, *others = shlex.split(line)[1:]
        if not {"-h", "--help", "--schema"} & set(others):
            try:
                assert parsed(declared(name), others).run
            except UsageError as caught:
                pytest.fail(f"{line}: {caught}")


def _into_a_pipe(path: Path, on: str) -> str:
    words = [sys.executable, "-m", "formsheet", "recast", str(path), "home", "--on", on]
    return subprocess.run(words, capture_output=True, text=True, check=True, cwd=os.getcwd()).stderr


def test_a_bar_line_that_the_shell_took(tmp_path: Path) -> None:
    path = tmp_path / "two.licks"
    path.write_text(TWO_BARS, encoding="utf-8")
    assert '--on "V | IV"' in _into_a_pipe(path, "V")
    assert _into_a_pipe(path, "V | IV") == ""
