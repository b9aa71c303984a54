"""The reference holds all that there is, in each of its layouts."""

from __future__ import annotations

import re
import shutil
import subprocess
from functools import cache

import pytest

from formsheet.cli import main
from formsheet.commands.declared import Command, Option
from formsheet.commands.files import EXITS
from formsheet.commands.parser import COMMANDS, all_declared, declared
from formsheet.commands.reference import LAYOUTS
from formsheet.commands.reference_content import reference
from formsheet.commands.reference_layout import laid_out
from formsheet.engine.parts import PARTS
from formsheet.music.form import FORMS
from formsheet.music.tunings import TUNINGS
from formsheet.problems.registry import KINDS, meaning
from formsheet.vocabulary.facts import FACT_OF
from formsheet.vocabulary.lines import LINE_WORDS
from formsheet.vocabulary.techniques import TECHNIQUES


@cache
def said(layout: str) -> str:
    """The reference, the signs of its layout taken out."""
    text = laid_out(reference(all_declared()), layout)
    plain = re.sub(r"\\f[BR]|\\&", "", text).replace("\\-", "-").replace("\\(aq", "'")
    return re.sub(r"\\([_*<>\[\]|#])", r"\1", plain)


def entries(layout: str) -> set[str]:
    """Its lines, without what marks an entry."""
    return {re.sub(r"[-`: ]+$", "", line.strip("- #`").split("`:")[0]) for line in
            said(layout).splitlines()}  # fmt: skip


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_and_option(layout: str, command: str) -> None:
    known = declared(command)
    assert f"formsheet {command}" in said(layout)
    assert known.help
    assert known.help in said(layout)
    for option in known.options:
        for name in option.names:
            assert re.search(rf"{re.escape(name)}\b", said(layout))


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize(
    "names", [list(FACT_OF), TECHNIQUES, list(FORMS), list(TUNINGS), list(PARTS), list(KINDS)]
)
def test_every_name(layout: str, names: list[str]) -> None:
    missing = [name for name in names if not re.search(rf"(?m)\b{re.escape(name)}\b", said(layout))]
    assert missing == []


@pytest.mark.parametrize("names", [list(FACT_OF), FORMS, TUNINGS, KINDS, map(str, EXITS)])
def test_every_name_has_an_entry_of_its_own(names: list[str]) -> None:
    assert set(names) <= entries("text")


def test_every_line_of_the_language_is_shown() -> None:
    assert {word.removesuffix(" time") for word in LINE_WORDS} <= entries("text")


def test_meanings_of_problems_are_whole() -> None:
    flat = " ".join(said("text").split())
    assert "bend-too-deep" in flat
    for kind in KINDS.values():
        assert " ".join(meaning(kind).split()) in flat


def test_defaults_are_told() -> None:
    flat = " ".join(said("text").split())
    assert "such as `position 2nd`; without it: 2nd" in flat
    assert "such as `tuning natural minor`; without it: richter" in flat
    assert "folder for the handouts (default: handouts)" in flat


def test_a_new_command_is_in_it_by_itself() -> None:
    loud = Option("--loud", "how loud", value="WORD", default="very")
    fresh = Command("hum", "hum it", run=lambda _: 0, options=(loud,))
    text = laid_out(reference([fresh]), "text")
    assert all(words in text for words in ("formsheet hum", "hum it", "how loud (default: very)"))


def test_the_manual_page_is_one(tmp_path: object) -> None:
    """Read by groff, with its warnings on, where it is there."""
    page = laid_out(reference(all_declared()), "man")
    assert page.startswith('.TH FORMSHEET 1 "" "formsheet')
    if not shutil.which("groff"):
        pytest.skip("groff is not on this machine")
    read = subprocess.run(
        ["groff", "-man", "-Tascii", "-ww", "-rLL=100n"],
        input=page, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert read.stderr == ""


def test_the_command_prints_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["reference", "--as", "markdown"]) == 0
    assert capsys.readouterr().out.startswith("# formsheet\n")
