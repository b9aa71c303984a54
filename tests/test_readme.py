"""The README is true: its lesson, its forms, its shelf, its error."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.music.form import FORMS
from formsheet.problems.drawing import drawn
from formsheet.stages import examine_file
from formsheet.suffixes import LESSON_SUFFIX
from tests.helpers import examined, told

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block(kind: str) -> str:
    """The first fenced block of a kind."""
    found = re.search(rf"^```{kind}\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
    assert found
    return found[1]


def test_the_lesson_is_in_order_without_a_word() -> None:
    assert told(examined(block("lesson")).problems) == "no problems"


def test_the_shelf_is_in_order(tmp_path: Path) -> None:
    path = tmp_path / "turnarounds.licks"
    path.write_text(block("licks"), encoding="utf-8")
    assert examine_file(path, path.name, Shelves(tmp_path)).problems == ()


def test_the_error_that_it_shows_is_the_one_that_is_printed() -> None:
    text = block("lesson").replace("2d 3d' 4d 3d 2d", "2d 3d'''' 4d 3d 2d", 1)
    problems = examined(text).problems
    printed = drawn(problems[0]).replace("test.lesson", f"kitchen{LESSON_SUFFIX}")
    assert printed in README


@pytest.mark.parametrize("name", FORMS)
def test_every_form_stands_with_its_chords(name: str) -> None:
    lines = (" ".join(" ".join(map(str, bar)) for bar in line) for line in FORMS[name].lines)
    assert f"| `{name}` | {' / '.join(lines)} |" in README


def test_own_form_and_own_tuning_parse() -> None:
    for start, facts in (('form "Late tram"', "{}"), ("tuning campfire", "{}\nform 8-bar")):
        part = README[README.index(start) :].split("```")[0]
        text = f"title T\nharp C\ntempo 60\n{facts.format(part)}\nlick a on I\n w 2d\n"
        slugs = {problem.code for problem in examined(text).problems}
        assert slugs <= {"play-missing"}, slugs


def test_test_command_is_what_ci_runs() -> None:
    assert "```sh\nsh tests/run\n```" in README
    assert "\nsh tests/run\n" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_it_opens_with_the_job() -> None:
    assert README.split("\n\n")[1].startswith("A harmonica teacher publishes")


def test_source_names_nothing_of_a_machine() -> None:
    assert not re.search(r"/(home|root|tmp|work)/", README)
