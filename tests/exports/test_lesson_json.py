"""`lesson.json`: valid by the published schema, and the same tune as `show --json`."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from formsheet.exports.data import lesson_json
from formsheet.report.data import tune_data
from formsheet.report.schema import schema_text
from tests.helpers import examined, over
from tests.lessons import NAMES, demo


def data_of(name: str) -> Any:
    return json.loads(lesson_json(demo(name)))


@pytest.mark.parametrize("name", NAMES)
def test_follows_the_schema(name: str) -> None:
    Draft202012Validator(json.loads(schema_text("show"))).validate(data_of(name))


@pytest.mark.parametrize("name", NAMES)
def test_is_the_tune_that_show_prints(name: str) -> None:
    assert data_of(name) == json.loads(json.dumps(tune_data(demo(name))))


def test_says_by_which_schema_it_is_written() -> None:
    schema = json.loads(schema_text("show"))
    assert data_of(NAMES[0])["schema"] == schema["properties"]["schema"]["const"]


def test_notes_are_those_of_the_tune() -> None:
    tune = demo(NAMES[0]).tune
    assert tune
    notes = [note for bar in data_of(NAMES[0])["bars"] for note in bar["notes"]]
    assert [(n["midi"], Fraction(n["onset"]), Fraction(n["duration"])) for n in notes] == [
        (list(n.midi), n.onset, n.duration) for n in tune.notes
    ]


def test_no_folder_is_told() -> None:
    found = examined(over("I", "w 3d'!"))
    moved = found._replace(name="somewhere/at/home/test.lesson")
    assert "somewhere" not in lesson_json(moved)
    assert json.loads(lesson_json(moved))["file"] == "test.lesson"


def test_findings_are_in_it() -> None:
    data = json.loads(lesson_json(examined(over("IV7", "w 3d"))))
    assert "note-clash" in [problem["code"] for problem in data["problems"]]
