"""Facts named on the command line: whatever a lesson accepts is accepted here, and more."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from formsheet.cli import main
from formsheet.commands.files import UsageError
from formsheet.commands.named import (
    named_form,
    named_harp,
    named_key,
    named_position,
    named_tempo,
)
from formsheet.lesson.model import Facts
from formsheet.music.tunings import RICHTER
from tests.helpers import examined, lesson_of, lesson_text, only_problem, told

RESTS = "lick run on I\n  w -\nplay\n  bars 1-12 rest"


def in_a_lesson(fact: str, words: str) -> Facts:
    return lesson_of(lesson_text(RESTS, **{fact: words})).facts


@pytest.mark.parametrize("words", ["C", "Bb", "B♭", "F♯", "low F", "low  E♭", "high G"])
def test_harps_of_a_lesson(words: str) -> None:
    assert named_harp(words, RICHTER) == in_a_lesson("harp", words).harp


@pytest.mark.parametrize("words", ["1st", "2nd", "12th", "3"])
def test_positions_of_a_lesson(words: str) -> None:
    assert named_position(words) == in_a_lesson("position", words).position


@pytest.mark.parametrize("words", ["104", "98.5", "20", "300.0", "66.25"])
def test_tempos_of_a_lesson(words: str) -> None:
    assert named_tempo(words) == in_a_lesson("tempo", words).tempo


@pytest.mark.parametrize(
    "words",
    ["12-bar standard", "12-Bar Standard", "12-bar  minor", "12-bar minor ending i",
     "12-Bar Standard ending I", "12-BAR QUICK-CHANGE ending V", "8-bar ending I IV | I V",
     "12-bar minor ending i VI7 | ii7b5 V7", "8-bar ending IV"],
)  # fmt: skip
def test_forms_of_a_lesson(words: str) -> None:
    name, ending, chord = words.partition(" ending ")
    found = examined(lesson_text(RESTS, form=f'"{name}"{ending}{chord}'))
    assert found.lesson, told(found.problems)
    assert named_form(words) == found.lesson.facts.form


@pytest.mark.parametrize(
    ("read", "words", "same"),
    [
        (lambda words: named_harp(words, RICHTER), "LOW b♭", "low Bb"),
        (lambda words: named_harp(words, RICHTER), "c", "C"),
        (named_position, " 2ND ", "2nd"),
        (named_form, "8-bar Ending I", "8-bar ending I"),
        (named_key, "b♭ minor", "Bb minor"),
    ],
)
def test_more_than_a_lesson_accepts(read: Callable[[str], Any], words: str, same: str) -> None:
    assert read(words) == read(same)


@pytest.mark.parametrize(
    ("read", "words", "message"),
    [
        (lambda words: named_harp(words, RICHTER), "H", "no harp is stamped `H`"),
        (lambda words: named_harp(words, RICHTER), "", "no harp is stamped"),
        (lambda words: named_harp(words, RICHTER), "C A G", "put commas between several"),
        (named_position, "13th", "`13th` is not a position"),
        (named_position, "second", "`second` is not a position"),
        (named_form, "9-bar", "there is no form called `9-bar`"),
        (named_form, "8-bar ending H", "8-bar ending H: `H` is not a chord; write I, IV"),
        (named_form, "8-bar ending I IV V", "in `I IV V` one has 3"),
        (named_form, "8-bar ending |", "in `|` one has 0"),
        (named_form, "8-bar ending " + " | ".join(["I"] * 9), "names 9 bars; the form has 8"),
        (named_form, "9-bar ending I", "there is no form called `9-bar`"),
        (named_form, "8-bar ending", "there is no form called `8-bar ending`"),
        (named_form, "ending I", "there is no form called `ending I`"),
        (named_form, "", "there is no form called"),
        (named_tempo, "19.5", "`19.5` is not a tempo"),
        (named_tempo, "300.1", "`300.1` is not a tempo"),
        (named_tempo, "1/2", "`1/2` is not a tempo"),
    ],
)
def test_what_is_none(read: Callable[[str], Any], words: str, message: str) -> None:
    with pytest.raises(UsageError, match=message):
        read(words)


def test_an_ending_is_at_most_as_long_as_its_form() -> None:
    nine = "8-bar ending " + " | ".join(["I"] * 9)
    assert only_problem(lesson_text(RESTS, form=nine)).code == "ending-too-long"


def test_commands_take_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    words = ("--harp", "B♭", "--form", "12-Bar Standard", "--tempo", "98.5")
    assert main(["new", "late", *words]) == 0
    text = Path("late.lesson").read_text(encoding="utf-8")
    facts = dict(line.split(maxsplit=1) for line in text.split("\n\n")[0].splitlines())
    assert (facts["harp"], facts["form"], facts["tempo"]) == ("Bb", "12-bar standard", "98.5")
    assert main(["check", "late.lesson", "--harp", "E♭"]) == 0
    assert main(["fit", "late.lesson", "--form", "8-Bar"]) == 0
    assert "; 8-bar\n" in capsys.readouterr().out
