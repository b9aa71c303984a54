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
        Option("--out", "write to this file, not to the terminal", value="FILE", heading=heading),
        Option("--force", "overwrite an existing file", heading=heading),
    )


OUTPUT = output_options()


def output_path(arguments: argparse.Namespace) -> Path | None:
    """Where the text goes, None for the terminal; UsageError if the file exists."""
    if arguments.out is None:
        return None
    path = Path(arguments.out)
    if path.exists() and not arguments.force:
        raise UsageError(f"{path} exists already; overwrite it with --force")
    return path


def deliver(text: str, path: Path | None) -> None:
    """Print the text, or write it whole to its file."""
    if path is None:
        print(text, end="")
        return
    deliver_bytes(text.encode("utf-8"), path)


def deliver_bytes(data: bytes, path: Path) -> None:
    """Write a file whole, and say so."""
    write_whole(path, data)
    print(f"wrote {path}", file=sys.stderr)
