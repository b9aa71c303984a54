"""What `--json` prints follows the published schemas (JSON Schema, draft 2020-12)."""

from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from typing import Any, Literal

import pytest
from jsonschema import Draft202012Validator

from formsheet.lesson.shelves import Shelves
from formsheet.library.likeness import alike
from formsheet.library.usage import library
from formsheet.report.data import check_data, tune_data
from formsheet.report.schema import schema_text
from formsheet.report.uses_data import uses_data
from formsheet.stages import Examined, examine_file
from tests.lessons import LESSONS, NAMES, demo

ERRORS = Path(__file__).parents[1] / "errors"
BROKEN = sorted(path.stem for path in ERRORS.glob("*.lesson"))
COMMANDS: tuple[Literal["check", "show"], ...] = ("check", "show")


def validator(command: Literal["check", "show"]) -> Draft202012Validator:
    return Draft202012Validator(json.loads(schema_text(command)))


def data(command: str, examined: Examined) -> Any:
    made = {"files": [check_data(examined)]} if command == "check" else tune_data(examined)
    return json.loads(json.dumps(made))


def broken(name: str) -> Examined:
    return examine_file(ERRORS / f"{name}.lesson", f"{name}.lesson", Shelves(ERRORS))


@pytest.mark.parametrize("command", COMMANDS)
def test_schema_is_one(command: Literal["check", "show"]) -> None:
    Draft202012Validator.check_schema(json.loads(schema_text(command)))


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("name", NAMES)
def test_demo_lessons_follow_it(name: str, command: Literal["check", "show"]) -> None:
    validator(command).validate(data(command, demo(name)))


@pytest.mark.parametrize("command", COMMANDS)
def test_lessons_with_errors_follow_it(command: Literal["check", "show"]) -> None:
    for name in BROKEN:
        validator(command).validate(data(command, broken(name)))


@pytest.mark.parametrize("command", COMMANDS)
def test_the_schema_refuses_what_is_not_so(command: Literal["check", "show"]) -> None:
    good = data(command, demo(NAMES[0]))
    wrong = deepcopy(good)
    bar = (wrong["files"][0] if command == "check" else wrong)["bars"][0]
    bar["chords"] = "I7"
    assert validator(command).is_valid(good)
    assert not validator(command).is_valid(wrong)


def uses() -> Any:
    """What `uses --json` prints of the demo lessons."""
    shelves = Shelves(LESSONS)
    paths = [*LESSONS.glob("*.lesson"), *LESSONS.glob("shelf/*.licks")]
    found = library((path, path.name, shelves) for path in paths)
    return json.loads(json.dumps(uses_data(found, alike(found.licks.values()))))


def test_uses_of_the_demo_lessons_follow_it() -> None:
    schema = Draft202012Validator(json.loads(schema_text("uses")))
    schema.check_schema(schema.schema)
    schema.validate(uses())
    wrong = uses() | {"alike": [{"how": "a bit", "licks": []}]}
    assert not schema.is_valid(wrong)
