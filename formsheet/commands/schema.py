"""The option `--schema`: prints the schema of a command's data and ends, as `--help` does."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any, Literal

from formsheet.report.schema import schema_text


class PrintSchema(argparse.Action):
    """An option without a value."""

    def __init__(self, *, command: Literal["check", "show", "uses"], **options: Any) -> None:
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
