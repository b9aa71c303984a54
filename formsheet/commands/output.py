"""Text that a command makes: to the terminal, or whole into a new file."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from formsheet.commands.declared import Option
from formsheet.commands.files import UsageError
from formsheet.whole import write_whole


def output_options(heading: str = "") -> tuple[Option, ...]:
    """The options of where the text goes."""
    return (
        Option("--out", "write there instead of to the terminal", value="FILE", heading=heading),
        Option("--force", "even over a file that is there", heading=heading),
    )


OUTPUT = output_options()


def output_path(arguments: argparse.Namespace) -> Path | None:
    """Where the text goes, None for the terminal; UsageError over a file that is there."""
    if arguments.out is None:
        return None
    path = Path(arguments.out)
    if path.exists() and not arguments.force:
        raise UsageError(f"there is a file {path} already; --force writes over it")
    return path


def deliver(text: str, path: Path | None) -> None:
    """Print the text, or write it whole to its file."""
    if path is None:
        print(text, end="")
        return
    write_whole(path, text.encode("utf-8"))
    print(f"{path} written", file=sys.stderr)
