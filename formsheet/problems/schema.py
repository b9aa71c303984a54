"""The JSON schema of a problem as data, made from the kinds."""

from __future__ import annotations

from typing import Any

from formsheet.problems.problem import Severity
from formsheet.problems.registry import KINDS


def _object(**properties: dict[str, Any]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": list(properties),
        "properties": properties,
    }


def _place() -> dict[str, dict[str, Any]]:
    number = {"type": "integer", "minimum": 1}
    end = {**number, "description": "the column after the last marked one"}
    return {
        "file": {"type": "string"},
        "line": number,
        "column": number,
        "end_line": number,
        "end_column": end,
    }


_TEXT = {"type": "string"}


def code_schema() -> dict[str, Any]:
    """The name of a kind."""
    return {"enum": sorted(KINDS), "description": "the kind of problem; `formsheet explain CODE`"}


def severity_schema() -> dict[str, Any]:
    """The words for how grave a problem is."""
    return {"enum": [severity.word for severity in reversed(Severity)]}


def problem_schema() -> dict[str, Any]:
    """What `formsheet.problems.drawing.as_data` gives."""
    certain = {"type": "boolean", "description": "it is the only change that can be meant"}
    replacement = {"type": "string", "description": "to be written in place of what is marked"}
    edit = _object(**_place(), text=replacement, certain=certain)
    hint = _object(
        text=_TEXT,
        edit={"anyOf": [edit, {"type": "null"}], "description": "null where it is not exactly one"},
    )
    bars = {
        "type": "array",
        "items": {"type": "integer"},
        "description": "numbers of the bars it is heard in, where it is about bars",
    }
    return _object(
        code=code_schema(),
        severity=severity_schema(),
        **_place(),
        message=_TEXT,
        hints={"type": "array", "items": hint},
        bars=bars,
        related={"type": "array", "items": _object(**_place(), label=_TEXT)},
    )
