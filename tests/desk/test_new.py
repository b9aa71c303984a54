"""`formsheet new`, with options and with questions."""

from __future__ import annotations

import os
import shlex
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.source import shown_name


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def asked(monkeypatch: pytest.MonkeyPatch, *answers: str) -> None:
    """Someone sits at the terminal and answers; running out of answers fails."""
    replies: Iterator[str] = iter(answers)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda _: next(replies))


def facts(name: str) -> dict[str, str]:
    text = Path(f"{name}.lesson").read_text(encoding="utf-8")
    lines = [line.split(maxsplit=1) for line in text.split("\n\n")[0].splitlines()]
    return {keyword: words for keyword, words in lines if keyword != "#"}


def test_options_decide() -> None:
    words = ("--harp", "low F", "--position", "3", "--form", "8-bar", "--meter", "12/8")
    assert main(["new", "coal-shed.lesson", *words, "--tempo", "66"]) == 0
    assert facts("coal-shed") == {
        "title": "Coal Shed", "harp": "low F", "position": "3rd", "form": "8-bar",
        "meter": "12/8", "tempo": "66", "feel": "straight",
    }  # fmt: skip


def test_what_the_options_leave_open_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    asked(monkeypatch, "Late Ferry", "1st", "", "3/4", "swing 3:2", "90")
    assert main(["new", "ferry", "--harp", "Bb"]) == 0
    assert facts("ferry") == {
        "title": "Late Ferry", "harp": "Bb", "position": "1st", "form": "12-bar standard",
        "meter": "3/4", "tempo": "90", "feel": "swing 3:2",
    }  # fmt: skip


def test_a_slip_is_told_and_asked_again(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    asked(monkeypatch, "", "H", "Bb", "", "", "", "", "")
    assert main(["new", "ferry"]) == 0
    assert "no harp is stamped `H`" in capsys.readouterr().out
    assert facts("ferry")["harp"] == "Bb"


def test_a_lesson_that_is_there_is_kept(capsys: pytest.CaptureFixture[str]) -> None:
    Path("ferry.lesson").write_text("mine", encoding="utf-8")
    assert main(["new", "ferry"]) == 2
    assert "ferry.lesson is there already" in capsys.readouterr().err
    assert Path("ferry.lesson").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--meter", "5/4"), "`5/4` is not a meter"),
        (("--feel", "bouncy"), "`bouncy` is not a feel"),
        (("--feel", "swing 9"), "`swing 9` does not say"),
        (("--tempo", "fast"), "`fast` is not a tempo"),
        (("--tempo", "999"), "`999` is not a tempo"),
        (("--title", " "), "a lesson needs a title"),
        (("--title", "x" * 201), "a title of more than 200 letters"),
        (("--title", "a\x1b[31mb"), "a character that cannot be printed"),
        (("--title", os.fsdecode(b"a\xff")), "a character that cannot be printed"),
    ],
)
def test_a_wrong_option_writes_nothing(
    words: tuple[str, str], message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "ferry", *words]) == 2
    assert message in capsys.readouterr().err
    assert not Path("ferry.lesson").exists()


@pytest.mark.parametrize("word", ["", ".", "..", "a/..", "/"])
def test_a_name_that_is_none(word: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", word]) == 2
    assert "name a file for the lesson" in capsys.readouterr().err
    assert list(Path().iterdir()) == []


@pytest.mark.parametrize(
    ("name", "title"),
    [("coal-shed", "Coal Shed"), ("bird's_nest", "Bird's Nest"), ("--out", "Out"),
     ("-", "Untitled"),
     ("new\nline", "New Line"), (os.fsdecode(b"caf\xe9"), "Caf"), ("winter/late", "Late"),
     ('a"b\'', "A\"b'"), ("<b>", "<b>"), ("x" * 240, "X" + "x" * 199)],
)  # fmt: skip
def test_a_title_from_the_name_of_the_file(
    name: str, title: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """And what to do next, as a shell takes it."""
    assert main(["new", "--", f"{name}.lesson"]) == 0
    next_words = shlex.split(capsys.readouterr().out.partition("then: ")[2])
    assert title in facts(name)["title"].replace("\\", "")
    word = f"./{name}" if name.startswith("-") else shown_name(Path(name))
    assert next_words == ["formsheet", "check", f"{word}.lesson"]
    assert main(["check", "--", f"{name}.lesson"]) == 0


def test_an_end_of_the_answers_writes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-D."""

    def ended(_: str) -> str:
        raise EOFError

    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr("builtins.input", ended)
    assert main(["new", "ferry"]) == 130
    assert list(Path().iterdir()) == []


def test_a_number_sign_in_the_title_is_kept() -> None:
    assert main(["new", "ferry", "--title", "Ferry #2"]) == 0
    assert main(["check", "ferry.lesson"]) == 0
    assert facts("ferry")["title"] == '"Ferry #2"'


@pytest.mark.parametrize(
    "title", ["Ferry", "Ferry #2", 'The "Ferry"', "日本 שלום", "x" * 200, "it's"]
)
def test_tidy_has_nothing_to_change(title: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "ferry", "--title", title, "--form", "16-bar"]) == 0
    assert main(["tidy", "--check", "ferry.lesson"]) == 0
    assert "0 of 1 file to be tidied" in capsys.readouterr().out
