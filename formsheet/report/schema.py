"""The published JSON schemas of the commands' `--json` output."""

from __future__ import annotations

from typing import Literal

Described = Literal["check", "chords", "explain", "fit", "joins", "recast", "show", "uses"]


def schema_text(command: Described) -> str:
    """The JSON schema (draft 2020-12) of a command's data, as text.

    The file in `schemas/` refers to definitions that all commands share; they are inserted here.
    """
    import json
    from importlib.resources import files  # slow to import

    from formsheet.problems.schema import code_schema, problem_schema, severity_schema

    text = files("formsheet.report").joinpath("schemas", f"{command}.json").read_text("utf-8")
    schema = json.loads(text)
    shared = {"problem": problem_schema, "code": code_schema, "severity": severity_schema}
    for name, make in shared.items():
        if f'"#/$defs/{name}"' in text:
            schema.setdefault("$defs", {})[name] = make()
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
