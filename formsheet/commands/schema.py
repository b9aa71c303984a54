"""The options `--json` and `--schema` of the commands that give data."""

from __future__ import annotations

from functools import partial

from formsheet.commands.declared import Option
from formsheet.report.schema import Described, schema_text


def data_options(name: Described, what: str) -> tuple[Option, ...]:
    """Both options; `what` is what comes as data, in words."""
    return (
        Option("--json", f"{what} as data"),
        Option("--schema", "print the schema of that data", prints=partial(schema_text, name)),
    )
