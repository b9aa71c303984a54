"""The options `--json` and `--schema` of the commands that give data."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from formsheet.report.schema import Described, schema_text


def add_data(command: argparse.ArgumentParser, name: Described, what: str) -> None:
    """Both options; `what` is what comes as data, in words."""
    command.add_argument("--json", action="store_true", help=f"{what} as data")
    command.add_argument("--schema", action=_PrintSchema, command=name)


class _PrintSchema(argparse.Action):
    """An option without a value: prints the schema and ends, as `--help` does."""

    def __init__(self, *, command: Described, **options: Any) -> None:
        super().__init__(nargs=0, help="print the schema of that data", **options)
        self.command = command

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        """Print and leave."""
        print(schema_text(self.command), end="")
        parser.exit()
