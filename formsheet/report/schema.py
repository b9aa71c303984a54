"""The published JSON schemas of what the commands print with `--json`."""

from __future__ import annotations

from typing import Literal

Described = Literal["check", "chords", "fit", "joins", "recast", "show", "uses"]


def schema_text(command: Described) -> str:
    """The JSON schema (draft 2020-12) of a command's data, as text."""
    from importlib.resources import files  # takes a start longer than it is worth

    return files("formsheet.report").joinpath("schemas", f"{command}.json").read_text("utf-8")
