"""What `--json` prints follows the published schemas (JSON Schema, draft 2020-12)."""

from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from typing import Any, Literal, get_args

import pytest
from jsonschema import Draft202012Validator

from formsheet.cli import main
from formsheet.lesson.shelves import Shelves
from formsheet.library.likeness import alike
from formsheet.library.usage import library
from formsheet.report.data import check_data, tune_data
from formsheet.report.schema import Described, schema_text
from formsheet.report.uses_data import uses_data
from formsheet.stages import Examined, examine_file
from tests.lessons import LESSONS, NAMES, demo

ERRORS = Path(__file__).parents[1] / "errors"
BROKEN = sorted(path.stem for path in ERRORS.glob("*.lesson"))
COMMANDS: tuple[Literal["check", "show"], ...] = ("check", "show")


def validator(command: Described) -> Draft202012Validator:
    return Draft202012Validator(json.loads(schema_text(command)))


def data(command: str, examined: Examined) -> Any:
    made = {"files": [check_data(examined)]} if command == "check" else tune_data(examined)
    return json.loads(json.dumps(made))


def broken(name: str) -> Examined:
    return examine_file(ERRORS / f"{name}.lesson", f"{name}.lesson", Shelves(ERRORS))


@pytest.mark.parametrize("command", get_args(Described))
def test_schema_is_one(command: Described) -> None:
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
    schema = validator("uses")
    schema.validate(uses())
    wrong = uses() | {"alike": [{"how": "a bit", "licks": []}]}
    assert not schema.is_valid(wrong)


# ---- What the command line prints ------------------------------------------------------------


def asked(command: Described, name: str) -> list[str]:
    """The words of a command that gives much of a demo lesson as data."""
    lesson = demo(name).lesson
    assert lesson
    more = {
        "fit": ["--form", "all"],
        "recast": [next(iter(lesson.licks)), "--on", "IV", "--on", "V", "--all", "--overbends"],
    }
    return [command, str(LESSONS / f"{name}.lesson"), *more.get(command, []), "--json"]


def printed(capsys: pytest.CaptureFixture[str], command: Described, name: str) -> Any:
    assert main(asked(command, name)) == 0
    return json.loads(capsys.readouterr().out)


def first_record(data: Any) -> dict[str, Any]:
    found: dict[str, Any] = data["moves"][0] if isinstance(data, dict) else data[0]
    return found


PRINTED: tuple[Described, ...] = ("chords", "fit", "joins", "recast")


@pytest.mark.parametrize("command", PRINTED)
@pytest.mark.parametrize("name", NAMES)
def test_what_is_printed_of_the_demo_lessons_follows_it(
    capsys: pytest.CaptureFixture[str], command: Described, name: str
) -> None:
    validator(command).validate(printed(capsys, command, name))


@pytest.mark.parametrize("command", PRINTED)
def test_the_schema_has_every_field_and_no_other(
    capsys: pytest.CaptureFixture[str], command: Described
) -> None:
    data = printed(capsys, command, NAMES[0])
    record = first_record(data)
    for field, value in list(record.items()):
        del record[field]
        assert not validator(command).is_valid(data), field
        record[field] = value
    record["other"] = 1
    assert not validator(command).is_valid(data)


@pytest.mark.parametrize("command", get_args(Described))
def test_the_command_prints_its_schema(
    capsys: pytest.CaptureFixture[str], command: Described
) -> None:
    with pytest.raises(SystemExit, match="0"):
        main([command, "--schema"])
    assert capsys.readouterr().out == schema_text(command)
